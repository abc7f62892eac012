package fit_test

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// near demands that got holds the numbers of want and no others, each within
// relative times its size plus absolute. A NaN anywhere fails.
func near(t testing.TB, want, got []float64, relative, absolute float64, what string) {
	t.Helper()
	require.NotEmpty(t, want, what)
	require.Len(t, got, len(want), what)
	for i, w := range want {
		off := math.Abs(got[i] - w)
		if !(off <= relative*math.Abs(w)+absolute) {
			require.Failf(t, what, "number %d is %.17g, off %.17g by %.3g", i, got[i], w, off)
		}
	}
}

// curve is a model that treats every observation alike: the value at x, its
// slope, and its gradient by beta.
type curve func(beta []float64, x float64, gradient []float64) (y, slope float64)

func (c curve) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	gradient := make([]float64, len(beta))
	for i := range x {
		y[i], slope[i] = c(beta, x[i], gradient)
		for j := range beta {
			jac[j][i] = gradient[j]
		}
	}
}

// straight is beta[0] + beta[1] x.
func straight(beta []float64, x float64, gradient []float64) (y, slope float64) {
	gradient[0], gradient[1] = 1, x
	return beta[0] + beta[1]*x, beta[1]
}

// constant is n times x.
func constant(n int, x float64) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = x
	}
	return s
}

// free is n priors that say nothing.
func free(n int) []fit.Prior {
	priors := make([]fit.Prior, n)
	for j := range priors {
		priors[j] = fit.Free()
	}
	return priors
}

// solve solves p from start by loss, and demands that it converges.
func solve(t testing.TB, p fit.Problem, start []float64, loss fit.Loss) fit.Solution {
	t.Helper()
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	solution := solver.Solve(start, loss)
	require.Equal(t, fit.Converged, solution.Status, "status: %v", solution.Status)
	return solution
}

// deviations are the roots of a covariance's diagonal.
func deviations(t testing.TB, covariance [][]float64) []float64 {
	t.Helper()
	require.NotEmpty(t, covariance, "covariance")
	sd := make([]float64, len(covariance))
	for k := range sd {
		sd[k] = math.Sqrt(covariance[k][k])
	}
	return sd
}

// table reads a file of testdata/nist: a header, then the rows.
func table(t testing.TB, name string) (header []string, rows [][]string) {
	t.Helper()
	file, err := os.Open("../testdata/nist/" + name + ".csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	all, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1, name)
	return all[0], all[1:]
}
