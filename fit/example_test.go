package fit_test

import (
	"fmt"

	"evendrop/fit"
)

// slope is the line y = b x through zero.
type slope struct{}

func (slope) Evaluate(beta, x, y, by []float64, jac [][]float64) {
	for i := range x {
		y[i], by[i], jac[0][i] = beta[0]*x[i], beta[0], x[i]
	}
}

// A slope from three points and what was known of it before, 2.0 to 0.1.
func ExampleSolver_Solve() {
	solver, err := fit.NewSolver(fit.Problem{
		Model: slope{}, X: []float64{1, 2, 3}, Y: []float64{2.2, 4.3, 6.5},
		SigmaY: []float64{0.1, 0.1, 0.1}, Priors: []fit.Prior{{Mean: 2, Sigma: 0.1}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	solution := solver.Solve([]float64{1}, fit.LeastSquares())
	fmt.Printf("%v: %.3f\n", solution.Status, solution.Beta[0])
	// Output:
	// converged: 2.153
}
