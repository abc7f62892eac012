package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"

	"evendrop/fit"
)

func TestWeight(t *testing.T) {
	const k = 1.3449975 // Huber's for 95 % (Ann. Math. Stat. 35 (1964) 73), recomputed
	for _, row := range []struct {
		name    string
		loss    fit.Loss
		z, want float64
	}{
		{"least squares", fit.LeastSquares(), 100, 1},
		{"Huber, at its bend", fit.Huber(1), k, 1},
		{"Huber, twice as far", fit.Huber(1), -2 * k, 0.5},
		{"Huber, four times", fit.Huber(1), 4 * k, 0.25},
		{"Huber, scatter 3", fit.Huber(3), -4 * k, 0.75},
		{"redescending, clean", fit.Redescending(1), -3, 1},
		// Tukey's biweight (1 - q^2)^2, closed form, at q = 1/3, 1/2 and 1.
		{"redescending, a third of the way", fit.Redescending(1), 3.5, 64. / 81},
		{"redescending, half-way", fit.Redescending(1), -3.75, 9. / 16},
		{"redescending, let go", fit.Redescending(1), 4.5, 0},
		{"redescending, far off", fit.Redescending(1), -1e9, 0},
		{"redescending, scatter 2", fit.Redescending(2), 7.5, 9. / 16},
	} {
		near(t, []float64{row.want}, []float64{row.loss.Weight(row.z)}, 1e-14, 0, row.name)
	}
}

// efficiency is the asymptotic one at normal errors, from the weights alone: for
// psi = z w(z), E[psi']^2 / E[psi^2], and E[psi'] = E[z psi] by parts.
func efficiency(loss fit.Loss) float64 {
	mean := func(f func(w float64) float64) float64 {
		density := func(z float64) float64 { return z * z * f(loss.Weight(z)) * math.Exp(-z*z/2) / math.Sqrt(math.Pi/2) }
		return quad.Fixed(density, 0, 1.3449975, 40, nil, 0) + quad.Fixed(density, 1.3449975, 3, 40, nil, 0) +
			quad.Fixed(density, 3, 4.5, 40, nil, 0) + quad.Fixed(density, 4.5, 12, 40, nil, 0)
	}
	return math.Pow(mean(func(w float64) float64 { return w }), 2) / mean(func(w float64) float64 { return w * w })
}

func TestEfficiency(t *testing.T) {
	near(t, []float64{1}, []float64{efficiency(fit.LeastSquares())}, 1e-12, 0, "least squares")
	// Tuned so; the constant's eight digits give 1e-8.
	near(t, []float64{0.95}, []float64{efficiency(fit.Huber(1))}, 1e-7, 0, "Huber")
	require.Greater(t, efficiency(fit.Redescending(1)), 0.98, "clean readings lose next to nothing")
}

// The same by experiment: lines of forty clean readings. The variance of the
// robust answers over that of least squares, on the same readings, has a
// standard error of about 2 sqrt((1-eff)/8000), below 0.006: 0.02 is over three.
func TestEfficiencyOfLines(t *testing.T) {
	const n, samples, seed = 40, 4000, 1964
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	p := fit.Problem{Model: quick{}, X: make([]float64, n), Y: make([]float64, n), SigmaY: constant(n, 0.3), Priors: free(2)}
	for i := range p.X {
		p.X[i] = float64(i)*2/(n-1) - 1
	}
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	losses := []fit.Loss{fit.LeastSquares(), fit.Huber(1), fit.Redescending(1)}
	variance := make([]float64, len(losses)) // of intercept and slope, each over its own at best
	best := [2]float64{0.09 / n, 0.09 / (n * (n + 1) / (3 * (n - 1.0)))}
	for range samples {
		for i, x := range p.X {
			p.Y[i] = 0.7 - 1.9*x + 0.3*random.NormFloat64()
		}
		start := []float64{0, 0}
		for k, loss := range losses {
			got := solver.Solve(start, loss)
			require.Equal(t, fit.Converged, got.Status)
			copy(start, got.Beta)
			variance[k] += (math.Pow(got.Beta[0]-0.7, 2)/best[0] + math.Pow(got.Beta[1]+1.9, 2)/best[1]) / (2 * samples)
		}
	}
	t.Logf("variance over the least possible: %.4f", variance)
	near(t, []float64{1}, variance[:1], 0, 4/math.Sqrt(samples), "least squares: four standard errors")
	for k, loss := range losses[1:] {
		near(t, []float64{efficiency(loss)}, []float64{variance[0] / variance[1+k]}, 0, 0.02, "efficiency")
	}
}

// bench is a line with readings a little off it, the third by off.
func bench(off float64) fit.Problem {
	return fit.Problem{
		Model: curve(straight), X: []float64{0, 1, 2, 3, 5, 8},
		Y: []float64{1.1, 2.9, 5.05 + off, 6.9, 11.1, 16.95}, SigmaY: []float64{0.1, 0.1, 0.1, 0.1, 0.2, 0.1}, Priors: free(2),
	}
}

// A gross error is let go entirely: parameters and covariance are those of the
// readings without it, to where a search ends.
func TestGrossError(t *testing.T) {
	without := bench(0)
	cut := func(s []float64) []float64 { return append(s[:2:2], s[3:]...) }
	without.X, without.Y, without.SigmaY = cut(without.X), cut(without.Y), cut(without.SigmaY)
	want := solve(t, without, []float64{0, 0}, fit.LeastSquares())

	start := solve(t, bench(5), []float64{0, 0}, fit.Huber(1)).Beta
	got := solve(t, bench(5), start, fit.Redescending(1))
	near(t, want.Beta, got.Beta, 1e-8, 0, "parameters")
	near(t, want.Covariance()[0], got.Covariance()[0], 1e-8, 0, "covariance")
	require.Zero(t, got.Weight(2))
	require.Zero(t, got.Gains(0, got.Covariance()).Y[2])
	near(t, constant(5, 1), cut([]float64{got.Weight(0), got.Weight(1), got.Weight(2), got.Weight(3), got.Weight(4), got.Weight(5)}), 0, 0, "weights")
	moved := solve(t, bench(5), []float64{0, 0}, fit.LeastSquares()).Beta[0] - want.Beta[0]
	require.Greater(t, math.Abs(moved), 5*math.Sqrt(want.Covariance()[0][0]), "least squares follows it")
}

// Huber's loss pulls no harder for a reading ten or ten thousand times as far
// off, and finds the same minimum from any start.
func TestHuberIsBounded(t *testing.T) {
	want := solve(t, bench(5), []float64{0, 0}, fit.Huber(1)).Beta
	for _, off := range []float64{5, 50, 5e4} {
		for _, start := range [][]float64{{1, 2}, {-300, 40}} {
			near(t, want, solve(t, bench(off), start, fit.Huber(1)).Beta, 1e-6, 0, "parameters")
		}
	}
}

// bent is lopsided with a reading far off and errors in x within which the
// curve bends.
func bent() fit.Problem {
	p := lopsided()
	for i := range p.SigmaX {
		p.SigmaX[i] *= 3
	}
	p.Y[2] += 2
	return p
}

// distances are the readings' from their places on the growth curve, in
// standard uncertainties of both variables.
func distances(p fit.Problem, got fit.Solution) []float64 {
	z := make([]float64, len(p.X))
	for i, at := range got.T {
		y, _ := growth(got.Beta, at, make([]float64, 3))
		z[i] = (p.Y[i] - y) / p.SigmaY[i]
		if p.SigmaX[i] > 0 {
			z[i] = math.Hypot(z[i], (p.X[i]-at)/p.SigmaX[i])
		}
	}
	return z
}

// The weight is the loss's at the distance in both variables. At a solution the
// distance from the tangent is the same; before one it is not.
func TestWeightIsByDistance(t *testing.T) {
	p, loss := bent(), fit.Huber(1)
	for _, p.MaxSteps = range []int{1, 0} {
		solver, err := fit.NewSolver(p)
		require.NoError(t, err)
		got := solver.Solve([]float64{1, 1, 0.6}, loss)
		byTangent := 0.0
		for i, z := range distances(p, got) {
			near(t, []float64{loss.Weight(z)}, []float64{got.Weight(i)}, 1e-13, 0, "weight")
			byTangent = math.Max(byTangent, math.Abs(loss.Weight(got.Standardised(i))-got.Weight(i)))
		}
		if p.MaxSteps == 1 {
			require.Equal(t, fit.OutOfSteps, got.Status)
			require.Greater(t, byTangent, 1e-3)
		} else {
			require.Equal(t, fit.Converged, got.Status)
			require.Less(t, byTangent, 1e-9) // the tolerance of 1e-10, and some
		}
	}
}

// A reading of weight w counts as one whose variances are 1/w times as large.
func TestWeightedCovariance(t *testing.T) {
	p, loss := bent(), fit.Huber(1)
	robust := solve(t, p, []float64{1, 1, 0.6}, loss)
	cov := robust.Covariance()
	gains := robust.Gains(1, cov)
	require.Less(t, robust.Weight(2), 0.5)
	for i, z := range distances(p, robust) {
		p.SigmaX[i] /= math.Sqrt(loss.Weight(z))
		p.SigmaY[i] /= math.Sqrt(loss.Weight(z))
	}
	want := solve(t, p, robust.Beta, fit.LeastSquares())
	wantCov := want.Covariance()
	wantGains := want.Gains(1, wantCov)
	// Two searches, each good to some 1e-10 of a deviation of a fifth at most.
	near(t, want.Beta, robust.Beta, 1e-9, 0, "parameters")
	for k := range wantCov {
		near(t, wantCov[k], cov[k], 1e-8, 0, "covariance")
	}
	near(t, wantGains.X, gains.X, 1e-8, 1e-10, "gains by x")
	near(t, wantGains.Y, gains.Y, 1e-8, 1e-10, "gains by y")
}
