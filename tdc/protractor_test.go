package tdc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// Every way of writing an angle, to crank degrees after the zero (common practice,
// no source).
func TestCrank(t *testing.T) {
	for _, c := range []struct {
		scale evidence.Scale
		sense evidence.Sense
		angle float64
		side  evidence.Side
		want  float64
		fault string
	}{
		{evidence.Full, evidence.With, 348, evidence.NoSide, 348, ""},
		{evidence.Full, evidence.With, 360, evidence.NoSide, 0, ""}, // its two ends are one place
		{evidence.Full, evidence.Against, 359.5, evidence.NoSide, -359.5, ""},
		{evidence.Full, evidence.With, -180, evidence.NoSide, -180, ""},
		{evidence.Cycle, evidence.With, 372, evidence.NoSide, 372, ""},
		{evidence.Cycle, evidence.Against, 720, evidence.NoSide, -720, ""},
		{evidence.Cycle, evidence.With, -348, evidence.NoSide, -348, ""},
		{evidence.Full, evidence.Against, 12, evidence.NoSide, -12, ""},
		{evidence.Full, evidence.Against, 348, evidence.NoSide, -348, ""},
		{evidence.Full, evidence.Against, 12, evidence.BTDC, -12, ""}, // the words rule
		{evidence.Full, evidence.Against, 12, evidence.ATDC, 12, ""},
		{evidence.Halves, evidence.With, -12, evidence.NoSide, -12, ""},
		{evidence.Halves, evidence.Against, -12, evidence.NoSide, 12, ""},
		{evidence.Halves, evidence.With, 12, evidence.BTDC, -12, ""},
		{evidence.Quadrants, evidence.With, 12, evidence.BTDC, -12, ""},
		{evidence.Quadrants, evidence.With, 12, evidence.ATDC, 12, ""},
		{evidence.Quadrants, evidence.With, 0, evidence.NoSide, 0, ""},
		{evidence.Quadrants, evidence.With, 12, evidence.NoSide, 0, "12 BTDC or 12 ATDC"},
		{evidence.Quadrants, evidence.With, 91, evidence.ATDC, 0, "expected 0 to 90 and back, with BTDC or ATDC"},
		{evidence.Halves, evidence.With, 181, evidence.NoSide, 0, "expected -180 to 180, or 0 to 180 and back"},
		{evidence.Full, evidence.With, 400, evidence.NoSide, 0, "400 is not on a protractor that wraps at 360: expected 0 to 360, or -180 to 180 (wraps 720 is for one that counts both turns of a cycle)"},
		{evidence.Full, evidence.With, 360.1, evidence.NoSide, 0, "expected 0 to 360"},
		{evidence.Full, evidence.With, -180.5, evidence.NoSide, 0, "expected 0 to 360, or -180 to 180"},
		{evidence.Full, evidence.Against, 400, evidence.ATDC, 0, "expected 0 to 360"},
		{evidence.Halves, evidence.With, -181, evidence.NoSide, 0, "expected -180 to 180"},
		{evidence.Cycle, evidence.With, 721, evidence.NoSide, 0, "expected 0 to 720, or -360 to 360"},
		{evidence.Cycle, evidence.With, -361, evidence.NoSide, 0, "expected 0 to 720, or -360 to 360"},
		{evidence.Full, evidence.With, -12, evidence.BTDC, 0, "both a minus sign and"},
	} {
		p := evidence.Protractor{Scale: c.scale, Sense: c.sense}
		got, err := p.Crank(evidence.Written{Angle: degrees(c.angle), Side: c.side})
		if c.fault != "" {
			require.ErrorContains(t, err, c.fault)
			continue
		}
		require.NoError(t, err)
		require.InDelta(t, c.want, got.Degrees(), 1e-12)
	}
}

// What a protractor shows is what its reader writes, whatever its convention.
func TestShowsWhatWasWritten(t *testing.T) {
	for _, c := range []struct {
		p     evidence.Protractor
		crank float64
		shows float64
	}{
		{evidence.Protractor{Scale: evidence.Full}, -12, 348},
		{evidence.Protractor{Scale: evidence.Full, Sense: evidence.Against}, -12, 12},
		{evidence.Protractor{Scale: evidence.Halves}, 348, -12},
		{evidence.Protractor{Scale: evidence.Halves, Sense: evidence.Against}, 12, -12},
		{evidence.Protractor{Scale: evidence.Quadrants, Sense: evidence.Against}, 12, 12}, // after, by its words
	} {
		require.InDelta(t, c.shows, c.p.Shows(degrees(c.crank)).Degrees(), 1e-12)
		if c.p.Scale == evidence.Quadrants {
			continue
		}
		back, err := c.p.Crank(evidence.Written{Angle: degrees(c.shows)})
		require.NoError(t, err)
		require.InDelta(t, 0, (back - degrees(c.crank)).Signed().Degrees(), 1e-12)
	}
}

// A bound of 0.5 deg is 0.289 of standard uncertainty, as is a step of 1 deg
// (JCGM 100 4.3.7, F.2.2.1).
func TestProtractorUncertainty(t *testing.T) {
	p := evidence.Protractor{Step: degrees(1), Error: degrees(0.5)}
	require.InDelta(t, math.Sqrt(2)*0.288675, p.Uncertainty().Degrees(), 1e-6)
}

// Midpoints across the wrap: arithmetic.
func TestHalve(t *testing.T) {
	p := evidence.DefaultProtractor()
	for _, c := range [][3]float64{{348.6, 11.8, 0.2}, {350, 20, 5}, {33.5, 356.5, 15}, {-31.5, 24, -3.75}} {
		found, err := tdc.Halve(p, []tdc.Pair{{First: degrees(c[0]), Second: degrees(c[1])}})
		require.NoError(t, err)
		require.InDelta(t, c[2], found.TDC.Angle.Degrees(), 1e-9)
		require.Len(t, found.Middles, 1)
		// two roundings of half a degree halved, and the error of both positions
		require.InDelta(t, math.Hypot(0.5/math.Sqrt(24), 0.25/math.Sqrt(6)), found.TDC.Uncertainty.Degrees(), 1e-9)
	}
	_, err := tdc.Halve(p, nil)
	require.Error(t, err)
	_, err = tdc.Halve(p, []tdc.Pair{{First: 0, Second: geometry.Turn / 2}})
	require.ErrorContains(t, err, "half a turn apart")
}

// Pairs that differ by a rounding are one answer; pairs that scatter say so by
// their scatter, with Student's t.
func TestHalveScatter(t *testing.T) {
	p := evidence.DefaultProtractor()
	pairs := func(last float64) []tdc.Pair {
		return []tdc.Pair{{First: degrees(-10), Second: degrees(10)}, {First: degrees(-10), Second: degrees(10.5)}, {First: degrees(-10), Second: degrees(last)}}
	}
	calm, err := tdc.Halve(p, pairs(10.5))
	require.NoError(t, err)
	require.True(t, math.IsInf(calm.TDC.DegreesOfFreedom, 1))
	wild, err := tdc.Halve(p, pairs(14))
	require.NoError(t, err)
	require.Greater(t, wild.TDC.Uncertainty, calm.TDC.Uncertainty)
	// midpoints 0, 0.25, 2: their deviation 1.090 over root 3, two degrees of freedom
	deviation := math.Sqrt((0.75*0.75 + 0.5*0.5 + 1.25*1.25) / 2 / 3)
	require.InDelta(t, math.Hypot(deviation, 0.25/math.Sqrt(6)), wild.TDC.Uncertainty.Degrees(), 1e-9)
	require.InDelta(t, 2, wild.TDC.DegreesOfFreedom, 0.3)
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
		var pairs []tdc.Pair
		for i := range 2 + 2*rng.IntN(2) {
			half := 6 + 20*rng.Float64()
			pair := tdc.Pair{First: read(at + lag - half), Second: read(at + lag + half)}
			if i%2 == 1 {
				pair = tdc.Pair{First: read(at - lag + half), Second: read(at - lag - half)}
			}
			pairs = append(pairs, pair)
		}
		h, err := tdc.Halve(p, pairs)
		require.NoError(t, err)
		require.InDelta(t, lag, h.Lag.Degrees(), 0.55) // a rounding and an error of each angle, halved
		if math.Abs((h.TDC.Angle - degrees(at)).Signed().Degrees()) <= h.TDC.Expanded.Degrees() {
			held++
		}
	}
	t.Logf("seed %d: TDC held in %d of %d", seed, held, jobs)
	require.Greater(t, float64(held), 0.93*jobs)
}
