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

// polynomial is the design of a polynomial in the first regressor.
func polynomial(degree int, x [][]float64) design {
	d := make(design, degree+1)
	for j := range d {
		for _, v := range x[0] {
			d[j] = append(d[j], math.Pow(v, float64(j)))
		}
	}
	return d
}

// NIST certifies 15 digits. Of the 15.6 that a float64 has, QR keeps what the
// condition number kappa leaves, columns scaled to one length (computed by
// SVD), and a coefficient loses as many more as its term is smaller than y. The
// floors are a decade or two below the digits so left, for the roundings of n
// rows; what is reached is logged.
func TestNISTLinear(t *testing.T) {
	for _, set := range []struct {
		name   string
		n      int
		design func(x [][]float64) design
		floor  float64 // digits
	}{
		// kappa 2.8, but b0 is a 4000th of the largest y: 11.5 digits are left.
		{"Norris", 36, func(x [][]float64) design { return polynomial(1, x) }, 10},
		// kappa 4.3e4: 11.0.
		{"Longley", 16, func(x [][]float64) design { return append(design{constant(16, 1)}, x...) }, 10},
		// kappa 5.2e9: 5.9.
		{"Filip", 82, func(x [][]float64) design { return polynomial(10, x) }, 5},
		// kappa 2.2e3, but b0 is 1 in 4e6: 12.3 less 6.6, were the fit not exact.
		{"Wampler1", 21, func(x [][]float64) design { return polynomial(5, x) }, 8},
	} {
		t.Run(set.name, func(t *testing.T) {
			want := certify(t, set.name)
			x, y := observations(t, set.name, set.n)
			got := solve(t, fit.Problem{
				Model: set.design(x), X: x[0], Y: y, SigmaY: constant(set.n, 1), Priors: free(len(want.beta)),
			}, make([]float64, len(want.beta)), fit.LeastSquares())
			residualSD, sd := scatter(t, got)
			parameters := digits(t, want.beta, got.Beta)
			t.Logf("digits: parameters %.1f; %d steps", parameters, got.Steps)
			require.GreaterOrEqual(t, parameters, set.floor)
			if want.residualSD == 0 {
				// An exact fit: what is left is the rounding of y, up to 4e6.
				near(t, want.sd, sd, 0, 1e-8, "deviations")
				near(t, []float64{0}, []float64{residualSD}, 0, 1e-8, "residual deviation")
				return
			}
			deviations, spread := digits(t, want.sd, sd), digits(t, []float64{want.residualSD}, []float64{residualSD})
			t.Logf("digits: deviations %.1f, residual deviation %.1f", deviations, spread)
			require.GreaterOrEqual(t, deviations, set.floor)
			require.GreaterOrEqual(t, spread, set.floor)
		})
	}
}
