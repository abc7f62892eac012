package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// level is a constant.
func level(b []float64, x float64, g []float64) (y, slope float64) {
	g[0] = 1
	return b[0], 0
}

// A constant seen three times and known before is their weighted mean, closed
// form: weights 4, 1, 4 and 1 of 10, 13, 11 and 8 give 10.5 and a variance of
// 1/10. Only roundings are allowed.
func TestWeightedMeanWithPrior(t *testing.T) {
	got := solve(t, fit.Problem{
		Model: curve(level), X: []float64{0, 0, 0}, Y: []float64{10, 13, 11}, SigmaY: []float64{0.5, 1, 0.5},
		Priors: []fit.Prior{{Mean: 8, Sigma: 1}},
	}, []float64{-100}, fit.LeastSquares())
	chi2 := 4*0.25 + 6.25 + 4*0.25 + 6.25
	cov := got.Covariance()
	gains := got.Gains(0, cov)
	residual, sigma := got.Residual(1)
	for _, row := range []struct {
		what      string
		want, got []float64
	}{
		{"mean", []float64{10.5}, got.Beta},
		{"variance", []float64{0.1}, cov[0]},
		{"objective, chi-square", []float64{chi2, chi2}, []float64{got.Cost, got.ChiSquare(nil)}},
		{"chi-square of the prior and reading 1", []float64{12.5}, []float64{got.ChiSquare(func(i int) bool { return i == 1 })}},
		{"degrees of freedom", []float64{3}, []float64{float64(got.DegreesOfFreedom())}},
		{"gains by y", []float64{0.4, 0.1, 0.4}, gains.Y},
		{"gains by x", []float64{0, 0, 0}, gains.X},
		{"gain by prior mean", []float64{0.1}, gains.Prior},
		{"residual", []float64{2.5, 1}, []float64{residual, sigma}},
		{"standardised", []float64{-1, 2.5, 1}, []float64{got.Standardised(0), got.Standardised(1), got.Standardised(2)}},
	} {
		near(t, row.want, row.got, 1e-12, 1e-12, row.what)
	}
}

// An intercept known a million times better than the readings tell, and a slope
// that only they tell: sums of (y - 5) x over those of x^2, closed form. The prior's
// row is far longer than theirs, and must not swallow it; and the last digit of 5
// is 1e-7 of its deviation, which must do for a search.
func TestTightPrior(t *testing.T) {
	got := solve(t, fit.Problem{
		Model: curve(straight), X: []float64{1, 2, 3}, Y: []float64{7.1, 9.2, 10.9}, SigmaY: constant(3, 1),
		Priors: []fit.Prior{{Mean: 5, Sigma: 1e-8}, fit.Free()},
	}, []float64{0, 0}, fit.LeastSquares())
	cov := got.Covariance()
	// What the prior leaves free is 1e-16 of what it holds, a rounding.
	near(t, []float64{5, (2.1 + 8.4 + 17.7) / 14}, got.Beta, 1e-12, 0, "parameters")
	near(t, []float64{1e-16, -1e-16 * 6 / 14}, cov[0], 1e-12, 0, "covariance")
	near(t, []float64{-1e-16 * 6 / 14, 1. / 14}, cov[1], 1e-12, 0, "covariance")
	near(t, []float64{-6. / 14, 0}, got.Gains(1, cov).Prior, 1e-12, 0, "slope by the prior's mean")
}

// With errors in both variables a reading stands off the line by its distance
// in y, in units of sqrt(sigmaY^2 + slope^2 sigmaX^2); held, the line is known,
// and the abscissa divides the distance in that proportion.
func TestResidualInBothVariables(t *testing.T) {
	got := solve(t, fit.Problem{
		Model: curve(straight), X: []float64{1, 2}, Y: []float64{5 + 5, 8 - 10},
		SigmaX: []float64{1, 0}, SigmaY: []float64{4, 2}, Priors: []fit.Prior{fit.Held(2), fit.Held(3)},
	}, []float64{0, 0}, fit.LeastSquares())
	e0, s0 := got.Residual(0)
	e1, s1 := got.Residual(1)
	near(t, []float64{5, 5, -10, 2}, []float64{e0, s0, e1, s1}, 1e-12, 0, "residuals and uncertainties")
	near(t, []float64{1 + 3*1*5/25.0, 2}, got.T, 1e-12, 0, "abscissae")
	near(t, []float64{1 + 25, 1 + 25}, []float64{got.Cost, got.ChiSquare(nil)}, 1e-12, 0, "objective")
	near(t, []float64{2, 3}, got.Beta, 0, 0, "held")
	near(t, []float64{0, 0, 0, 0}, append(got.Covariance()[0], got.Covariance()[1]...), 0, 0, "covariance")
	require.Equal(t, 2, got.DegreesOfFreedom())
}

// quick is a straight line that allocates nothing.
type quick struct{}

func (quick) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	for i, v := range x {
		y[i], slope[i], jac[0][i], jac[1][i] = beta[0]+beta[1]*v, beta[1], 1, v
	}
}

func TestSolvingAgainAllocatesNothing(t *testing.T) {
	p := pearsonYork()
	p.Model, p.Priors[1] = quick{}, fit.Prior{Mean: -0.5, Sigma: 1}
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	start := []float64{5, -0.4}
	for _, loss := range []fit.Loss{fit.LeastSquares(), fit.Huber(1), fit.Redescending(1)} {
		status := fit.NotANumber
		require.Zero(t, testing.AllocsPerRun(100, func() { status = solver.Solve(start, loss).Status }))
		require.Equal(t, fit.Converged, status)
	}
}

// A solver keeps the slices it was given: with the readings changed in place it
// answers as a new one would, and forgets where it was.
func TestSolvingAgain(t *testing.T) {
	p := pearsonYork()
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	first := append([]float64{}, solver.Solve([]float64{5, 0}, fit.LeastSquares()).Beta...)
	for i := range p.Y {
		p.Y[i] = 20 - math.Exp(p.Y[i]/4)
	}
	second := append([]float64{}, solver.Solve([]float64{5, 0}, fit.Huber(1)).Beta...)
	near(t, solve(t, p, []float64{5, 0}, fit.Huber(1)).Beta, second, 0, 0, "as a new one")
	copy(p.Y, pearsonYork().Y)
	near(t, first, solver.Solve([]float64{5, 0}, fit.LeastSquares()).Beta, 0, 0, "as before")
	require.NotEqual(t, first, second)

	// Nor does a search that was cut short leave anything behind.
	p.MaxSteps = 2
	short, err := fit.NewSolver(p)
	require.NoError(t, err)
	fresh := append([]float64{}, short.Solve([]float64{6, -1}, fit.Redescending(1)).T...)
	require.Equal(t, fit.OutOfSteps, short.Solve([]float64{-40, 9}, fit.LeastSquares()).Status)
	near(t, fresh, short.Solve([]float64{6, -1}, fit.Redescending(1)).T, 0, 0, "after a search cut short")
}
