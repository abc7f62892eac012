package fit_test

import (
	"math"
	"testing"

	"evendrop/fit"
)

// explicit is the explicit example of the ODRPACK95 User's Guide 2.B.i (Zwolak,
// Boggs and Watson 2004; data: Fuller, Measurement Error Models, 1987, example
// 3.2.2): y = b1 + b2 (exp(b3 x) - 1)^2, unit weights, x of points 1, 2 and 12
// exact.
func explicit() fit.Problem {
	return fit.Problem{
		Model: curve(func(b []float64, x float64, g []float64) (y, slope float64) {
			e := math.Exp(b[2] * x)
			g[0], g[1], g[2] = 1, (e-1)*(e-1), 2*b[1]*(e-1)*x*e
			return b[0] + b[1]*g[1], 2 * b[1] * (e - 1) * b[2] * e
		}),
		X:      []float64{0, 0, 5, 7, 7.5, 10, 16, 26, 30, 34, 34.5, 100},
		Y:      []float64{1265, 1263.6, 1258, 1254, 1253, 1249.8, 1237, 1218, 1220.6, 1213.8, 1215.5, 1212},
		SigmaX: []float64{0, 0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0},
		SigmaY: constant(12, 1),
		Priors: free(3),
	}
}

func TestODRPACKExplicit(t *testing.T) {
	got := solve(t, explicit(), []float64{1500, -50, -0.1}, fit.LeastSquares())
	residualSD, sd := scatter(t, got)

	for _, row := range []struct {
		source              string
		got, want           []float64
		relative, lastDigit float64
	}{
		// Printed to nine digits, but stopped at 1.5e-8 of the sum of squares: a
		// root of that, 1.2e-4, of a deviation (0.08, 3 and 7 % of a parameter).
		{"the guide: parameters", got.Beta, []float64{1264.65481, -54.0184100, -0.0878497122}, 9e-6, 0},
		// Half a unit of the last digit printed; the guide prints three.
		{"the guide: deviations", sd[:2], []float64{1.03, 1.58}, 0, 5e-3},
		{"the guide: deviation of b3", sd[2:], []float64{6.33e-3}, 0, 5e-6},
		{"the guide: residual deviation", []float64{residualSD}, []float64{1.54364294}, 0, 5e-9},
		// The minimum in 40 digits. The search ends at 1e-10 of a deviation, of 7 %
		// of b3 at most; of the deviations eleven digits are given, or one fewer.
		{"recomputed: parameters", got.Beta, []float64{1264.654810500619, -54.01838682268864, -0.08784985176207765}, 1e-11, 0},
		{"recomputed: deviations", sd, []float64{1.03492723484, 1.5839967124, 0.00633221903684}, 4e-11, 0},
		// The objective, flat there, is good to its rounding and these 14 digits.
		{"recomputed: sum of squares", []float64{got.Cost}, []float64{21.445501659402}, 1e-13, 0},
		{"recomputed: residual deviation", []float64{residualSD}, []float64{1.54364293725}, 0, 5e-12},
		{"exact abscissae stay", []float64{got.T[0], got.T[1], got.T[11]}, []float64{0, 0, 100}, 0, 0},
		{"twelve points, three parameters", []float64{float64(got.DegreesOfFreedom())}, []float64{9}, 0, 0},
	} {
		near(t, row.want, row.got, row.relative, row.lastDigit, row.source)
	}
}
