package halve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// Midpoints across the wrap: arithmetic.
func TestHalve(t *testing.T) {
	p := evidence.DefaultProtractor()
	for _, c := range [][3]float64{{348.6, 11.8, 0.2}, {350, 20, 5}, {33.5, 356.5, 15}, {-31.5, 24, -3.75}} {
		found, err := halve.Pairs(p, []halve.Pair{{First: degrees(c[0]), Second: degrees(c[1])}})
		require.NoError(t, err)
		require.InDelta(t, c[2], found.TDC.Angle.Degrees(), 1e-9)
		require.Len(t, found.Middles, 1)
		// two roundings of half a degree halved, and the error of both positions and where TDC is
		require.InDelta(t, math.Hypot(0.5/math.Sqrt(24), 0.25/math.Sqrt(2)), found.TDC.Uncertainty.Degrees(), 1e-9)
	}
	_, err := halve.Pairs(p, nil)
	require.Error(t, err)
	_, err = halve.Pairs(p, []halve.Pair{{First: 0, Second: geometry.Turn / 2}})
	require.ErrorContains(t, err, "half a turn apart")
}

// Pairs that differ by a rounding are one answer; pairs that scatter say so by
// their scatter, with Student's t.
func TestHalveScatter(t *testing.T) {
	p := evidence.DefaultProtractor()
	pairs := func(last float64) []halve.Pair {
		return []halve.Pair{{First: degrees(-10), Second: degrees(10)}, {First: degrees(-10), Second: degrees(10.5)}, {First: degrees(-10), Second: degrees(last)}}
	}
	calm, err := halve.Pairs(p, pairs(10.5))
	require.NoError(t, err)
	require.True(t, math.IsInf(calm.TDC.DegreesOfFreedom, 1))
	wild, err := halve.Pairs(p, pairs(14))
	require.NoError(t, err)
	require.Greater(t, wild.TDC.Uncertainty, calm.TDC.Uncertainty)
	// midpoints 0, 0.25, 2: their deviation 1.090 over root 3, two degrees of freedom
	deviation := math.Sqrt((0.75*0.75 + 0.5*0.5 + 1.25*1.25) / 2 / 3)
	require.InDelta(t, math.Hypot(deviation, 0.25/math.Sqrt(2)), wild.TDC.Uncertainty.Degrees(), 1e-9)
	require.InDelta(t, 2*math.Pow(wild.TDC.Uncertainty.Degrees()/deviation, 4), wild.TDC.DegreesOfFreedom, 1e-6) // JCGM 100, G.4.1
}

// Pairs read turning both ways, drawn with a lag of up to 1.5 deg (common practice, no
// source) and the protractor's own error: none is refused, and TDC is held.
func TestHalveBothWays(t *testing.T) {
	const seed, jobs = 20261127, 1000
	rng := rand.New(rand.NewPCG(seed, 1))
	p := evidence.DefaultProtractor()
	read := func(at float64) geometry.Angle {
		return degrees(rounded(at+within(rng, p.Error.Degrees()), p.Step.Degrees()))
	}
	held := 0
	for range jobs {
		at, lag := within(rng, 180), 1.5*rng.Float64()
		var pairs []halve.Pair
		for i := range 2 + 2*rng.IntN(2) {
			half := 6 + 20*rng.Float64()
			pair := halve.Pair{First: read(at + lag - half), Second: read(at + lag + half)}
			if i%2 == 1 {
				pair = halve.Pair{First: read(at - lag + half), Second: read(at - lag - half)}
			}
			pairs = append(pairs, pair)
		}
		h, err := halve.Pairs(p, pairs)
		require.NoError(t, err)
		require.InDelta(t, lag, h.Lag.Degrees(), 0.55) // a rounding and an error of each angle, halved
		if math.Abs((h.TDC.Angle - degrees(at)).Signed().Degrees()) <= h.TDC.Expanded.Degrees() {
			held++
		}
	}
	t.Logf("seed %d: TDC held in %d of %d", seed, held, jobs)
	require.Greater(t, float64(held), 0.93*jobs)
}

func degrees(d float64) geometry.Angle { return geometry.Angle(d) * geometry.Degree }

// rounded is a number to the nearest step.
func rounded(x, step float64) float64 { return math.Round(x/step) * step }

// within is a number drawn evenly within a half-width.
func within(rng *rand.Rand, half float64) float64 { return half * (2*rng.Float64() - 1) }
