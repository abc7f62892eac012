package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/fit"
)

// pearsonYork is Pearson's ten points (Phil. Mag. 2 (1901) 559) with York's
// weights (Can. J. Phys. 44 (1966) 1079): both variables carry errors.
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
	sigma := make([]float64, len(weights))
	for i, w := range weights {
		sigma[i] = 1 / math.Sqrt(w)
	}
	return sigma
}

// The standard deviations are as the weights say, not scaled by the scatter.
//
// Tolerances: half a unit of the last digit printed or, where more are known,
// 1e-11: the search ends at 1e-10 of a deviation, 5 and 12 % of the parameters.
// The objective, flat there, is good to its rounding.
func TestPearsonYork(t *testing.T) {
	got := solve(t, pearsonYork(), []float64{5, -0.4}, fit.LeastSquares())
	cov := got.Covariance()
	sd := deviations(t, cov)
	const recomputed = "York et al., Am. J. Phys. 72 (2004) 367, recomputed to 40 digits: "
	for _, row := range []struct {
		source              string
		got, want           float64
		relative, lastDigit float64
	}{
		{"Williamson, Can. J. Phys. 46 (1968) 1845: intercept", got.Beta[0], 5.47991022403, 0, 5e-12},
		{"Williamson: slope", got.Beta[1], -0.48053340745, 0, 5e-12},
		{recomputed + "intercept", got.Beta[0], 5.479910224032865, 1e-11, 0},
		{recomputed + "slope", got.Beta[1], -0.480533407446202, 1e-11, 0},
		{recomputed + "chi-square", got.ChiSquare(nil), 11.8663531940615, 1e-13, 0},
		{recomputed + "objective", got.Cost, 11.8663531940615, 1e-13, 0},
		{recomputed + "deviation of intercept", sd[0], 0.294970735493109, 1e-11, 0},
		{recomputed + "deviation of slope", sd[1], 0.0579850090007744, 1e-11, 0},
		{recomputed + "covariance", cov[0][1], -0.0164725446581, 1e-11, 0},
		{recomputed + "covariance, other half", cov[1][0], -0.0164725446581, 1e-11, 0},
		{"ODRPACK: covariance", cov[0][1], -0.01647254, 0, 5e-9},
		{"degrees of freedom: ten points, two parameters", float64(got.DegreesOfFreedom()), 8, 0, 0},
	} {
		near(t, []float64{row.want}, []float64{row.got}, row.relative, row.lastDigit, row.source)
	}
}

// The readings scatter by more than their weights say: chi-square is 11.866 with
// 8 degrees of freedom, which one fit in six exceeds. Birge's ratio widens the
// deviations by its root. Published: the reduced chi-square, York et al. (2004)
// by the R package bfsl; Birge's ratio and the widened deviations by the Julia
// package LinearFitXYerrors. All recomputed to 40 digits.
func TestPearsonYorkBirge(t *testing.T) {
	got := solve(t, pearsonYork(), []float64{5, -0.4}, fit.LeastSquares())
	birge, widened := scatter(t, got)
	degrees := float64(got.DegreesOfFreedom())
	near(t, []float64{11.866}, []float64{got.ChiSquare(nil)}, 0, 5e-4, "York: S, to its digits")
	near(t, []float64{1.48329414925768}, []float64{got.ChiSquare(nil) / degrees}, 1e-13, 0, "reduced chi-square")
	near(t, []float64{1.217905640539}, []float64{birge}, 0, 5e-13, "Birge's ratio")
	near(t, []float64{0.359246522551112, 0.0706202695287709}, widened, 1e-11, 0, "widened deviations")
	beyond := distuv.ChiSquared{K: degrees}.Survival(got.ChiSquare(nil))
	near(t, []float64{0.157267228691}, []float64{beyond}, 1e-11, 0, "chance of more, by scipy")
}

// Limits of the same data: errors in one variable only, and equal in both
// (Pearson's own case). Closed forms, computed in exact fractions.
func TestPearsonLimits(t *testing.T) {
	for _, row := range []struct {
		name             string
		sigmaX, sigmaY   []float64
		intercept, slope float64
		relative         float64 // roundings of a linear problem, or as above
	}{
		{"y on x", nil, constant(10, 1), 5.761185190439038, -0.5395772749840414, 1e-13},
		{"y on x, weighted", nil, pearsonYork().SigmaY, 6.100109316665757, -0.6108129565839335, 1e-13},
		{"orthogonal", constant(10, 1), constant(10, 1), 5.784043774530085, -0.5455611975205206, 1e-11},
	} {
		p := pearsonYork()
		p.SigmaX, p.SigmaY = row.sigmaX, row.sigmaY
		got := solve(t, p, []float64{0, 0}, fit.LeastSquares())
		near(t, []float64{row.intercept, row.slope}, got.Beta, row.relative, 0, row.name)
	}
}

// Thirty starts, within 3 of the intercept and 1 of the slope, end in one place.
func TestPearsonYorkFromAnywhere(t *testing.T) {
	const seed = 1901
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	for range 30 {
		start := []float64{5.5 + 6*(random.Float64()-0.5), -0.5 + 2*(random.Float64()-0.5)}
		got := solve(t, pearsonYork(), start, fit.LeastSquares())
		near(t, []float64{5.479910224032865, -0.480533407446202}, got.Beta, 1e-11, 0, "from anywhere")
	}
}
