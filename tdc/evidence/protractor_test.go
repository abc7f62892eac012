package evidence_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
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
		{evidence.Quadrants, evidence.With, 12, evidence.BBDC, 168, ""},
		{evidence.Quadrants, evidence.Against, 12, evidence.ABDC, 192, ""},
		{evidence.Full, evidence.With, 360, evidence.BBDC, 180, ""},
		{evidence.Full, evidence.With, -12, evidence.ABDC, 0, "both a minus sign and a side such as BTDC"},
		{evidence.Quadrants, evidence.With, 12, evidence.NoSide, 0, "near BDC 12 BBDC or 12 ABDC"},
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

func degrees(d float64) geometry.Angle { return geometry.Angle(d) * geometry.Degree }
