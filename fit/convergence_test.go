package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// A step too small for the objective to judge is still a step: the solution is
// sought to 1e-10 of a standard deviation, not to the 1e-7 at which the
// objective's own digits end.
func TestConvergesBeyondTheObjective(t *testing.T) {
	york := solve(t, pearsonYork(), []float64{5, -0.4}, fit.LeastSquares())
	near(t, []float64{5.479910224032865, -0.480533407446202}, york.Beta, 1e-11, 0, "York, recomputed to 40 digits")
	for _, set := range nonlinear {
		want := certify(t, set.name)
		x, y := observations(t, set.name, set.n)
		for _, start := range want.starts {
			got := solve(t, fit.Problem{
				Model: set.model, X: x[0], Y: y, SigmaY: constant(set.n, 1), Priors: free(len(want.beta)),
			}, start, fit.LeastSquares())
			_, sd := scatter(t, got)
			// Certified to 11 digits, the last one rounded.
			near(t, want.beta, got.Beta, 1e-10, 0, set.name)
			near(t, want.sd, sd, 1e-10, 0, set.name)
		}
	}
}

// A start that no step leaves has not converged, however short the steps that
// were tried: here the model's derivatives have the wrong sign.
func TestStuckIsNotConverged(t *testing.T) {
	p := line()
	p.Model = curve(func(b []float64, x float64, g []float64) (y, slope float64) {
		g[0], g[1] = -1, -x
		return b[0] + b[1]*x, b[1]
	})
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	got := solver.Solve([]float64{3, 2}, fit.LeastSquares())
	require.Equal(t, fit.Stalled, got.Status, "%v", got.Status)
	require.Less(t, got.Steps, 50) // each a tenth as long as the one before
}

// Abscissae are damped with the parameters: on a wave whose crests are narrow
// against the errors in x a full step in them overshoots, and none may stall.
func TestAbscissaeAreDamped(t *testing.T) {
	const n, seed = 10, 2
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	p := fit.Problem{
		Model: curve(func(b []float64, x float64, g []float64) (y, slope float64) {
			sin, cos := math.Sincos(b[1] * x)
			g[0], g[1] = sin, b[0]*x*cos
			return b[0] * sin, b[0] * b[1] * cos
		}),
		X: make([]float64, n), Y: make([]float64, n), SigmaX: constant(n, 0.3), SigmaY: constant(n, 0.1),
		Priors: []fit.Prior{{Mean: 3, Sigma: 0.5}, {Mean: 2, Sigma: 0.1}},
	}
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	for range 300 {
		for i := range p.X {
			at := 0.7 * float64(i)
			p.X[i], p.Y[i] = at+0.3*random.NormFloat64(), 3*math.Sin(2*at)+0.1*random.NormFloat64()
		}
		require.NotEqual(t, fit.Stalled, solver.Solve([]float64{3, 2}, fit.LeastSquares()).Status)
	}
}
