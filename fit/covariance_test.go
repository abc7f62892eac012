package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"

	"evendrop/fit"
)

// exact is lopsided with readings, and priors' means, right on the curve: there
// first-order answers are whole answers.
func exact() (p fit.Problem, beta []float64) {
	p, beta = lopsided(), []float64{0.9, 1.2, 0.55}
	for i, x := range p.X {
		p.Y[i], _ = growth(beta, x, make([]float64, 3))
	}
	for j := range p.Priors {
		p.Priors[j].Mean = beta[j]
	}
	return p, beta
}

// The covariance is the inverse of half the objective's Hessian over all
// unknowns, abscissae too, cut down to the parameters. The Hessian is numeric,
// with central differences of a thousandth of the uncertainties: off by the
// square of that, and the inverse by some ten times more.
func TestCovarianceIsInverseHessian(t *testing.T) {
	p, beta := exact()
	got := solve(t, p, []float64{1, 1, 0.6}, fit.LeastSquares())
	scale := append([]float64{1, 1, 1}, p.SigmaX...)
	best := append(append([]float64{}, beta...), p.X...)
	n := len(best)
	hessian := mat.NewSymDense(n, nil)
	fd.Hessian(hessian, func(v []float64) float64 {
		at := make([]float64, n)
		for k := range at {
			at[k] = best[k] + scale[k]*v[k]
		}
		return objective(p, func(z float64) float64 { return z * z }, at[:3], at[3:])
	}, make([]float64, n), &fd.Settings{Formula: fd.Central, Step: 1e-4})
	hessian.ScaleSym(0.5, hessian)
	hessian.SetSym(3+5, 3+5, 1) // the exact abscissa moves nothing
	var inverse mat.Dense
	require.NoError(t, inverse.Inverse(hessian))

	cov := got.Covariance()
	require.Len(t, cov, 3)
	for j, row := range cov {
		near(t, inverse.RawMatrix().Data[j*n:j*n+3], row, 1e-5, 0, "covariance")
		for k := range row {
			require.Equal(t, cov[k][j], row[k], "symmetric")
		}
	}
}

// Gains are how the solution moves when one observation or one prior mean does,
// found by solving again a tenth of its uncertainty either way. Central
// differences so wide are off by a hundredth of the curve's third-order bend
// within the uncertainties, itself about a thousandth.
func TestGainsAreDerivatives(t *testing.T) {
	p, _ := exact()
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	solve := func() []float64 {
		got := solver.Solve([]float64{1, 1, 0.6}, fit.LeastSquares())
		require.Equal(t, fit.Converged, got.Status)
		return append([]float64{}, got.Beta...)
	}
	// by is the derivative of every parameter by what at points to.
	by := func(at *float64, sigma float64) []float64 {
		was, h := *at, 0.1*sigma
		*at = was + h
		up := solve()
		*at = was - h
		down := solve()
		*at = was
		for k := range up {
			up[k] = (up[k] - down[k]) / (2 * h)
		}
		return up
	}
	var want [3]fit.Gains
	for i := range p.X {
		x, y := make([]float64, 3), by(&p.Y[i], p.SigmaY[i])
		if p.SigmaX[i] > 0 {
			x = by(&p.X[i], p.SigmaX[i])
		}
		for k := range want {
			want[k].X, want[k].Y = append(want[k].X, x[k]), append(want[k].Y, y[k])
		}
	}
	for j := range p.Priors {
		mean := make([]float64, 3)
		if j > 0 {
			mean = by(&p.Priors[j].Mean, p.Priors[j].Sigma)
		}
		for k := range want {
			want[k].Prior = append(want[k].Prior, mean[k])
		}
	}
	got := solver.Solve([]float64{1, 1, 0.6}, fit.LeastSquares())
	cov := got.Covariance()
	for k := range want {
		gains := got.Gains(k, cov)
		near(t, want[k].X, gains.X, 1e-4, 1e-5, "by x")
		near(t, want[k].Y, gains.Y, 1e-4, 1e-5, "by y")
		near(t, want[k].Prior, gains.Prior, 1e-4, 1e-5, "by prior mean")
	}
}

// The covariance is what the gains carry over of every observation's variance,
// row by row; an identity, so only roundings are allowed. Here the readings
// scatter, and cross terms count too.
func TestGainsCarryTheVariance(t *testing.T) {
	p := lopsided()
	p.Priors = []fit.Prior{p.Priors[0], fit.Held(0.2), p.Priors[1], p.Priors[2]}
	p.Model = curve(func(b []float64, x float64, g []float64) (y, slope float64) {
		y, slope = growth([]float64{b[0], b[2], b[3]}, x, g[1:])
		g[0], g[1] = g[1], x
		return y + b[1]*x, slope + b[1]
	})
	got := solve(t, p, []float64{1, 7, 1, 0.6}, fit.LeastSquares())
	cov := got.Covariance()
	require.Len(t, cov, 4)
	for k := range cov {
		a := got.Gains(k, cov)
		for l := range cov {
			b := got.Gains(l, cov)
			sum := 0.0
			for i := range p.X {
				sum += a.X[i]*b.X[i]*math.Pow(p.SigmaX[i], 2) + a.Y[i]*b.Y[i]*math.Pow(p.SigmaY[i], 2)
			}
			for j := 2; j < 4; j++ {
				sum += a.Prior[j] * b.Prior[j] * math.Pow(p.Priors[j].Sigma, 2)
			}
			near(t, []float64{cov[k][l]}, []float64{sum}, 1e-10, 0, "covariance")
		}
	}
	require.NotZero(t, cov[0][3])
	// A held parameter, and an exact abscissa, take no part.
	near(t, make([]float64, 4), cov[1], 0, 0, "held")
	near(t, make([]float64, 4), got.Gains(1, cov).Prior, 0, 0, "held")
	near(t, []float64{0.2}, got.Beta[1:2], 0, 0, "held")
	near(t, []float64{0}, []float64{got.Gains(0, cov).X[5]}, 0, 0, "exact abscissa")
}
