package fit_test

import (
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

const trials = 400_000

func sampleOf(trial fit.Trial) fit.Sample {
	return fit.Trials(trials, 42, func() fit.Trial { return trial }, nil)
}

// JCGM 101:2008 9.2.2 and 9.2.3: four normal and four rectangular quantities of
// unit deviation, added. The exact half-widths are 1.96 x 2 and
// 2 sqrt 3 (2 - (3/5)^(1/4)). An end of the interval strays by 0.008 at 400,000
// draws; four of that are allowed.
func TestTrialsOfSums(t *testing.T) {
	normal := sampleOf(func(rng *rand.Rand) float64 {
		return rng.NormFloat64() + rng.NormFloat64() + rng.NormFloat64() + rng.NormFloat64()
	})
	low, high := normal.Symmetric(0.95)
	require.InDelta(t, -3.92, low, 0.03)
	require.InDelta(t, 3.92, high, 0.03)
	require.InDelta(t, 2, normal.Deviation(), 4*2/math.Sqrt(2*trials))
	require.InDelta(t, 0, normal.Mean(), 4*2/math.Sqrt(trials))
	even := func(rng *rand.Rand) float64 { return math.Sqrt(3) * (2*rng.Float64() - 1) }
	rectangular := sampleOf(func(rng *rand.Rand) float64 { return even(rng) + even(rng) + even(rng) + even(rng) })
	low, high = rectangular.Symmetric(0.95)
	exact := 2 * math.Sqrt(3) * (2 - math.Pow(3./5, 0.25))
	require.InDelta(t, -exact, low, 0.03)
	require.InDelta(t, exact, high, 0.03)
}

// JCGM 101:2008 9.4, the flat extremum: comparison loss X1^2 + X2^2 with X2 about
// zero and both uncertain by 0.005; table 8, in millionths: estimate, standard
// uncertainty and shortest 95 % interval. TDC's depth is such a quantity.
func TestTrialsOfAFlatExtremum(t *testing.T) {
	for _, c := range []struct{ x1, estimate, u, low, high float64 }{
		{0, 50, 50, 0, 150}, {0.010, 150, 112, 0, 367}, {0.050, 2550, 502, 1590, 3543},
	} {
		s := sampleOf(func(rng *rand.Rand) float64 {
			x1, x2 := c.x1+0.005*rng.NormFloat64(), 0.005*rng.NormFloat64()
			return 1e6 * (x1*x1 + x2*x2)
		})
		low, high := s.Shortest(0.95)
		require.InDelta(t, c.estimate, s.Mean(), 0.5+4*c.u/math.Sqrt(trials)) // printed to a whole millionth
		require.InDelta(t, c.u, s.Deviation(), 0.5+4*c.u/math.Sqrt(trials))
		// a shortest interval's ends are the noisier the flatter the sides: the
		// supplement's own differ by 10 between its runs of a million
		require.InDelta(t, c.low, low, 0.5+0.03*c.u)
		require.InDelta(t, c.high, high, 0.5+0.03*c.u)
	}
}

// The same seed gives the same sample on any number of cores, and another seed
// another.
func TestTrialsDoNotDependOnTheCores(t *testing.T) {
	draw := func(seed uint64) fit.Sample {
		return fit.Trials(12_345, seed, func() fit.Trial { return func(rng *rand.Rand) float64 { return rng.NormFloat64() } }, nil)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one := draw(7)
	runtime.GOMAXPROCS(8)
	require.Equal(t, one, draw(7))
	require.NotEqual(t, one, draw(8))
}

// Progress ends at the whole.
func TestTrialsTellProgress(t *testing.T) {
	most := 0
	fit.Trials(5_001, 1, func() fit.Trial { return func(*rand.Rand) float64 { return 1 } }, func(done int) { most = max(most, done) })
	require.Equal(t, 5_001, most)
}

// Of 1 to 5 the mean is 3 and the standard deviation the root of 10/4 (JCGM 100, 4.2.2).
func TestDeviationOfFive(t *testing.T) {
	s := fit.Trials(5, 1, func() fit.Trial {
		n := 0.0
		return func(*rand.Rand) float64 { n++; return n }
	}, nil)
	require.InDelta(t, 3, s.Mean(), 1e-15)
	require.InDelta(t, math.Sqrt(10./4), s.Deviation(), 1e-15)
}
