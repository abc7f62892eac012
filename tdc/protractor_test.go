package tdc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
)

// Every way of writing an angle, to crank degrees after the zero (common practice,
// no source).
func TestCrank(t *testing.T) {
	for _, c := range []struct {
		scale tdc.Scale
		sense tdc.Sense
		angle float64
		side  tdc.Side
		want  float64
		fault string
	}{
		{tdc.Full, tdc.With, 348, tdc.NoSide, 348, ""},
		{tdc.Full, tdc.With, 360, tdc.NoSide, 0, ""}, // its two ends are one place
		{tdc.Full, tdc.Against, 359.5, tdc.NoSide, -359.5, ""},
		{tdc.Full, tdc.With, -180, tdc.NoSide, -180, ""},
		{tdc.Cycle, tdc.With, 372, tdc.NoSide, 372, ""},
		{tdc.Cycle, tdc.Against, 720, tdc.NoSide, -720, ""},
		{tdc.Cycle, tdc.With, -348, tdc.NoSide, -348, ""},
		{tdc.Full, tdc.Against, 12, tdc.NoSide, -12, ""},
		{tdc.Full, tdc.Against, 348, tdc.NoSide, -348, ""},
		{tdc.Full, tdc.Against, 12, tdc.BTDC, -12, ""}, // the words rule
		{tdc.Full, tdc.Against, 12, tdc.ATDC, 12, ""},
		{tdc.Halves, tdc.With, -12, tdc.NoSide, -12, ""},
		{tdc.Halves, tdc.Against, -12, tdc.NoSide, 12, ""},
		{tdc.Halves, tdc.With, 12, tdc.BTDC, -12, ""},
		{tdc.Quadrants, tdc.With, 12, tdc.BTDC, -12, ""},
		{tdc.Quadrants, tdc.With, 12, tdc.ATDC, 12, ""},
		{tdc.Quadrants, tdc.With, 0, tdc.NoSide, 0, ""},
		{tdc.Quadrants, tdc.With, 12, tdc.NoSide, 0, "12 BTDC or 12 ATDC"},
		{tdc.Quadrants, tdc.With, 91, tdc.ATDC, 0, "expected 0 to 90 and back, with BTDC or ATDC"},
		{tdc.Halves, tdc.With, 181, tdc.NoSide, 0, "expected -180 to 180, or 0 to 180 and back"},
		{tdc.Full, tdc.With, 400, tdc.NoSide, 0, "400 is not on a protractor that wraps at 360: expected 0 to 360, or -180 to 180 (wraps 720 is for one that counts both turns of a cycle)"},
		{tdc.Full, tdc.With, 360.1, tdc.NoSide, 0, "expected 0 to 360"},
		{tdc.Full, tdc.With, -180.5, tdc.NoSide, 0, "expected 0 to 360, or -180 to 180"},
		{tdc.Full, tdc.Against, 400, tdc.ATDC, 0, "expected 0 to 360"},
		{tdc.Halves, tdc.With, -181, tdc.NoSide, 0, "expected -180 to 180"},
		{tdc.Cycle, tdc.With, 721, tdc.NoSide, 0, "expected 0 to 720, or -360 to 360"},
		{tdc.Cycle, tdc.With, -361, tdc.NoSide, 0, "expected 0 to 720, or -360 to 360"},
		{tdc.Full, tdc.With, -12, tdc.BTDC, 0, "both a minus sign and"},
	} {
		p := tdc.Protractor{Scale: c.scale, Sense: c.sense}
		got, err := p.Crank(tdc.Written{Angle: degrees(c.angle), Side: c.side})
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
		p     tdc.Protractor
		crank float64
		shows float64
	}{
		{tdc.Protractor{Scale: tdc.Full}, -12, 348},
		{tdc.Protractor{Scale: tdc.Full, Sense: tdc.Against}, -12, 12},
		{tdc.Protractor{Scale: tdc.Halves}, 348, -12},
		{tdc.Protractor{Scale: tdc.Halves, Sense: tdc.Against}, 12, -12},
		{tdc.Protractor{Scale: tdc.Quadrants, Sense: tdc.Against}, 12, 12}, // after, by its words
	} {
		require.InDelta(t, c.shows, c.p.Shows(degrees(c.crank)).Degrees(), 1e-12)
		if c.p.Scale == tdc.Quadrants {
			continue
		}
		back, err := c.p.Crank(tdc.Written{Angle: degrees(c.shows)})
		require.NoError(t, err)
		require.InDelta(t, 0, (back - degrees(c.crank)).Signed().Degrees(), 1e-12)
	}
}

// A bound of 0.5 deg is 0.289 of standard uncertainty, as is a step of 1 deg
// (JCGM 100 4.3.7, F.2.2.1).
func TestProtractorUncertainty(t *testing.T) {
	p := tdc.Protractor{Step: degrees(1), Error: degrees(0.5)}
	require.InDelta(t, math.Sqrt(2)*0.288675, p.Uncertainty().Degrees(), 1e-6)
}

// Midpoints across the wrap: arithmetic.
func TestHalve(t *testing.T) {
	p := tdc.DefaultProtractor()
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
	p := tdc.DefaultProtractor()
	pairs := func(last float64) []tdc.Pair {
		return []tdc.Pair{{degrees(-10), degrees(10)}, {degrees(-10), degrees(10.5)}, {degrees(-10), degrees(last)}}
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
	p := tdc.DefaultProtractor()
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
