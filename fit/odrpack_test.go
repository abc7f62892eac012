package fit_test

import (
	"math"
	"testing"

	"evendrop/fit"
)

func odrpack() fit.Problem {
	p := fit.Problem{
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
	return p
}

func TestODRPACK(t *testing.T) {
	got := solve(t, odrpack(), []float64{1500, -50, -0.1}, fit.LeastSquares())
	_, sd := scatter(t, got)
	t.Log(got.Steps, got.Beta[0]/1264.654810500619-1, got.Beta[1]/-54.01838682268864-1, got.Beta[2]/-0.08784985176207765-1)
	t.Log(sd[0]/1.03492723484-1, sd[1]/1.5839967124-1, sd[2]/0.00633221903684-1, got.Cost/21.445501659402-1, got.DegreesOfFreedom())
}
