package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// design is a model linear in beta: column j of the design matrix is its
// derivative by beta[j], whatever x is.
type design [][]float64

func (d design) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	clear(y)
	clear(slope)
	for j, column := range d {
		copy(jac[j], column)
		for i := range x {
			y[i] += beta[j] * column[i]
		}
	}
}

// powers is the design of a polynomial.
func powers(degree int) func(x [][]float64) design {
	return func(x [][]float64) design {
		d := make(design, degree+1)
		for j := range d {
			for _, v := range x[0] {
				d[j] = append(d[j], math.Pow(v, float64(j)))
			}
		}
		return d
	}
}

// withConstant is the design of a plane.
func withConstant(x [][]float64) design {
	return append(design{constant(len(x[0]), 1)}, x...)
}

func TestNISTLinear(t *testing.T) {
	for _, set := range []struct {
		name       string
		n          int
		design     func(x [][]float64) design
		parameters float64
		deviations float64
	}{
		{"Norris", 36, powers(1), 1, 1},
		{"Longley", 16, withConstant, 1, 1},
		{"Filip", 82, powers(10), 1, 1},
		{"Wampler1", 21, powers(5), 1, 0},
	} {
		t.Run(set.name, func(t *testing.T) {
			want := certify(t, set.name)
			x, y := observations(t, set.name, set.n)
			s, err := fit.NewSolver(fit.Problem{
				Model: set.design(x), X: x[0], Y: y, SigmaY: constant(set.n, 1), Priors: free(len(want.beta)),
			})
			require.NoError(t, err)
			got := s.Solve(make([]float64, len(want.beta)), fit.LeastSquares())
			t.Log(got.Status, got.Steps, got.Cost)
			residualSD, sd := scatter(t, got)
			t.Logf("digits: parameters %.1f, deviations %.1f; residual %g %g", digits(t, want.beta, got.Beta), digits(t, want.sd, sd), residualSD, want.residualSD)
		})
	}
}
