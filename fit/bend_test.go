package fit_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// bowl is y = a + b (x - c)^2.
type bowl struct{}

func (bowl) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	for i := range x {
		u := x[i] - beta[2]
		y[i], slope[i] = beta[0]+beta[1]*u*u, 2*beta[1]*u
		jac[0][i], jac[1][i], jac[2][i] = 1, u*u, -2*beta[1]*u
	}
}

// Points about the bottom of a bowl, far less sure along it than across it: the
// curve bends within their uncertainty so much that undamped steps overshoot, and
// steps damped in the parameters alone need not go down.
func TestSettlesWhereTheCurveBends(t *testing.T) {
	const seed, problems = 1944, 2000
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	most := 0
	for range problems {
		p := fit.Problem{Model: bowl{}, Priors: []fit.Prior{fit.Free(), {Mean: 100, Sigma: 5}, fit.Free()}, MaxSteps: 200}
		for range 4 + rng.IntN(20) {
			x := 0.6*rng.Float64() - 0.3
			p.X, p.SigmaX = append(p.X, x+0.005*rng.NormFloat64()), append(p.SigmaX, 0.005)
			p.Y, p.SigmaY = append(p.Y, 100*x*x+0.01*rng.NormFloat64()), append(p.SigmaY, 0.01)
		}
		s, err := fit.NewSolver(p)
		require.NoError(t, err)
		for _, loss := range []fit.Loss{fit.LeastSquares(), fit.Huber(1), fit.Redescending(1)} {
			got := s.Solve([]float64{0, 100, 0.005}, loss)
			require.Equal(t, fit.Converged, got.Status, "status: %s", got.Status)
			most = max(most, got.Steps)
		}
	}
	t.Logf("at most %d steps", most)
}
