package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// line is a problem with a straight line's readings, a little off 2 + 3x.
func line() fit.Problem {
	return fit.Problem{
		Model: curve(straight),
		X:     []float64{-1, 0.5, 1, 4}, Y: []float64{-1.1, 3.7, 5, 13.9},
		SigmaX: []float64{0.1, 0, 0.2, 0.1}, SigmaY: []float64{0.1, 0.2, 0.1, 0.3},
		Priors: free(2),
	}
}

func logarithm(b []float64, x float64, g []float64) (y, slope float64) {
	g[0] = 1 / b[0]
	return math.Log(b[0] * x), 1 / x
}

func TestStatus(t *testing.T) {
	for _, row := range []struct {
		name  string
		p     fit.Problem
		edit  func(p *fit.Problem)
		start []float64
		want  fit.Status
	}{
		{"a line", line(), nil, []float64{0, 0}, fit.Converged},
		{"started near the answer", line(), nil, []float64{2, 3}, fit.Converged},
		{"all zeros", line(), func(p *fit.Problem) { p.Y = make([]float64, 4) }, []float64{1, 1}, fit.Converged},
		{"everything held", line(), func(p *fit.Problem) { p.Priors = []fit.Prior{fit.Held(2), fit.Held(4)} },
			[]float64{0, 0}, fit.Converged},
		{"priors and no readings", line(), func(p *fit.Problem) {
			p.X, p.Y, p.SigmaX, p.SigmaY = nil, nil, nil, nil
			p.Priors = []fit.Prior{{Mean: 1, Sigma: 2}, {Mean: 5, Sigma: 1}}
		}, []float64{0, 0}, fit.Converged},
		{"fewer readings than parameters", line(), func(p *fit.Problem) {
			p.X, p.Y, p.SigmaX, p.SigmaY = p.X[:1], p.Y[:1], p.SigmaX[:1], p.SigmaY[:1]
		}, []float64{0, 0}, fit.Undetermined},
		{"no readings", line(), func(p *fit.Problem) { p.X, p.Y, p.SigmaX, p.SigmaY = nil, nil, nil, nil },
			[]float64{0, 0}, fit.Undetermined},
		{"readings at one x", line(), func(p *fit.Problem) { p.SigmaX, p.X = nil, constant(4, 0.3) },
			[]float64{0, 0}, fit.Undetermined},
		{"a parameter without effect", line(), func(p *fit.Problem) { p.Priors = free(3) },
			[]float64{0, 0, 0}, fit.Undetermined},
		{"the same, with a prior", line(), func(p *fit.Problem) { p.Priors = append(free(2), fit.Prior{Sigma: 1}) },
			[]float64{0, 0, 0}, fit.Converged},
		{"not a number at the start", line(), func(p *fit.Problem) { p.Model, p.Priors = curve(logarithm), free(1) },
			[]float64{1}, fit.NotANumber}, // x is negative
		{"infinite at the start", line(), nil, []float64{math.Inf(1), 0}, fit.NotANumber},
		{"not a number half-way", fit.Problem{
			Model: curve(logarithm), X: []float64{1, 2}, Y: []float64{-2, -1.5}, SigmaY: constant(2, 1), Priors: free(1),
		}, nil, []float64{5}, fit.Converged}, // the first full step leads below zero
	} {
		t.Run(row.name, func(t *testing.T) {
			if row.edit != nil {
				row.edit(&row.p)
			}
			solver, err := fit.NewSolver(row.p)
			require.NoError(t, err)
			got := solver.Solve(row.start, fit.LeastSquares())
			require.Equal(t, row.want, got.Status, "%v", got.Status)
			switch row.want {
			case fit.Undetermined:
				require.Nil(t, got.Covariance())
			case fit.NotANumber:
				require.Zero(t, got.Steps)
			}
		})
	}
}

// A start that is too short or too long leaves nothing that could be taken for
// an answer, not even the one before it.
func TestBadStart(t *testing.T) {
	p := line()
	p.Priors[1] = fit.Held(3)
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	for _, start := range [][]float64{nil, {2}, {2, 3, 4}} {
		require.Equal(t, fit.Converged, solver.Solve([]float64{2, 3}, fit.LeastSquares()).Status)
		got := solver.Solve(start, fit.LeastSquares())
		require.Equal(t, fit.BadStart, got.Status, "%v", got.Status)
		require.Zero(t, got.Steps)
		require.Nil(t, got.Covariance())
		require.True(t, math.IsNaN(got.Cost))
		require.Len(t, got.Beta, 2)
		for _, b := range got.Beta {
			require.True(t, math.IsNaN(b))
		}
	}
}

// Cut short anywhere, within a step or between two, a search says so.
func TestOutOfStepsAnywhere(t *testing.T) {
	x, y := observations(t, "Misra1a", 14)
	for most := 1; most <= 20; most++ { // it takes 21
		solver, err := fit.NewSolver(fit.Problem{
			Model: nonlinear[0].model, X: x[0], Y: y, SigmaY: constant(14, 1), Priors: free(2), MaxSteps: most,
		})
		require.NoError(t, err)
		got := solver.Solve([]float64{500, 0.0001}, fit.LeastSquares())
		require.Equal(t, fit.OutOfSteps, got.Status, "after %d: %v", most, got.Status)
		require.Equal(t, most, got.Steps)
	}
}

// Readings on the line, errors in one variable or both, leave nothing: residuals
// are roundings of y, up to 14, over uncertainties of 0.1, so their squares are
// below 1e-26, and a search that looks for less must see that it is there.
func TestExactReadings(t *testing.T) {
	for _, sigmaX := range [][]float64{nil, line().SigmaX} {
		p := line()
		p.SigmaX, p.Y = sigmaX, []float64{-1, 3.5, 5, 14}
		got := solve(t, p, []float64{40, -7}, fit.LeastSquares())
		near(t, []float64{2, 3}, got.Beta, 1e-12, 0, "parameters")
		near(t, []float64{0}, []float64{got.Cost}, 0, 1e-24, "objective")
		near(t, p.X, got.T, 0, 1e-12, "abscissae")
		require.Less(t, got.Steps, 50)
	}
}

func TestStatusInWords(t *testing.T) {
	words := map[string]bool{}
	for status := fit.Converged; status <= fit.BadStart; status++ {
		words[status.String()] = true
	}
	require.Len(t, words, 6)
	require.NotContains(t, words, "")
	require.Equal(t, "converged", fit.Converged.String())
}

func TestBadProblem(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, row := range []struct {
		edit func(p *fit.Problem)
		want string
	}{
		{func(p *fit.Problem) { p.Y = p.Y[:3] }, "hold 4, 3, 4 and 4 numbers"},
		{func(p *fit.Problem) { p.X = append(p.X, 1) }, "hold 5, 4, 4 and 4 numbers"},
		{func(p *fit.Problem) { p.SigmaX = p.SigmaX[:1] }, "hold 4, 4, 1 and 4 numbers"},
		{func(p *fit.Problem) { p.SigmaY = nil }, "hold 4, 4, 4 and 0 numbers"},
		{func(p *fit.Problem) { p.X[0] = nan }, "observation 0 is not finite"},
		{func(p *fit.Problem) { p.X[1] = inf }, "observation 1 is not finite"},
		{func(p *fit.Problem) { p.Y[2] = -inf }, "observation 2 is not finite"},
		{func(p *fit.Problem) { p.Y[3] = nan }, "observation 3 is not finite"},
		{func(p *fit.Problem) { p.SigmaX[1] = -0.1 }, "observation 1 is not finite, or its uncertainty is not above zero: x 0.5 ± -0.1, y 3.7 ± 0.2"},
		{func(p *fit.Problem) { p.SigmaX[1] = nan }, "observation 1"},
		{func(p *fit.Problem) { p.SigmaX[1] = inf }, "observation 1"},
		{func(p *fit.Problem) { p.SigmaY[2] = 0 }, "observation 2"},
		{func(p *fit.Problem) { p.SigmaY[2] = -1 }, "observation 2"},
		{func(p *fit.Problem) { p.SigmaY[2] = inf }, "observation 2"},
		{func(p *fit.Problem) { p.SigmaY[2] = nan }, "observation 2"},
		{func(p *fit.Problem) { p.Priors[1].Mean = nan }, "prior 1 is not valid: NaN ± +Inf"},
		{func(p *fit.Problem) { p.Priors[0] = fit.Prior{Mean: inf, Sigma: 1} }, "prior 0"},
		{func(p *fit.Problem) { p.Priors[0].Sigma = nan }, "prior 0"},
		{func(p *fit.Problem) { p.Priors[0].Sigma = -1 }, "prior 0 is not valid: 0 ± -1"},
	} {
		p := line()
		row.edit(&p)
		_, err := fit.NewSolver(p)
		require.ErrorContains(t, err, row.want)
	}
}
