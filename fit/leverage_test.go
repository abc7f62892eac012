package fit_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// The leverages of all readings add up to as many as there are parameters, whatever
// the readings weigh (Hoaglin1978: the trace of the hat matrix), and the ends of a
// line have most.
func TestLeveragesAddUp(t *testing.T) {
	x := []float64{0, 1, 2, 3, 4, 5, 6, 7}
	y := []float64{0.1, 0.9, 2.1, 3, 3.9, 5.1, 6, 17} // the last is ten out
	p := fit.Problem{
		Model: polynomial(1, [][]float64{x}), X: x, Y: y, SigmaY: constant(8, 0.1), Priors: []fit.Prior{fit.Free(), fit.Free()},
	}
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	for _, loss := range []fit.Loss{fit.LeastSquares(), fit.Huber(1)} {
		found := solver.Solve([]float64{0, 1}, loss)
		covariance := found.Covariance()
		sum := 0.0
		for i := range x {
			sum += found.Leverage(i, covariance)
		}
		require.InDelta(t, 2, sum, 1e-9)
	}
	require.Less(t, solver.Solve([]float64{0, 1}, fit.Huber(1)).Weight(7), 0.1)
}
