package halve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// Published centres, each to its printed digits, with 0 at TDC. Cards are wider than half
// a turn, where the shorter way round would be the heel.
func TestLobe(t *testing.T) {
	p := evidence.DefaultProtractor()
	for _, c := range []struct {
		source                 string
		opening, closing, want float64
	}{
		{"blog.decatech.com degree-wheel page, equal lift", 60, 145.5, 102.75},
		{"b50.org/calculatecam.htm, 40 BTDC and 60 ABDC", -40, 240, 100},
		{"a published cam card, consdi.arthropoda.ru, 10 ATDC and 39 ABDC", 10, 219, 114.5},
		{"onallcylinders.com 2023/07/26, inlet, 31 and 63", 329, 243, 106},
		{"the same, exhaust, 77 BBDC and 29 ATDC", 103, 29, -114},
		{"github.com/rsw13 0D-Engine-Model, Inlet_Lift_Profile.csv", 6, 206, 106},
	} {
		found, err := halve.Lobe(p, []halve.Pair{{First: degrees(c.opening), Second: degrees(c.closing)}})
		require.NoError(t, err)
		require.InDelta(t, c.want, found.Centre.Angle.Degrees(), 1e-9, c.source)
		// two roundings of half a degree halved, and the error of both positions and where the centre is
		require.InDelta(t, math.Hypot(0.5/math.Sqrt(24), 0.25/math.Sqrt(2)), found.Centre.Uncertainty.Degrees(), 1e-9, c.source)
	}
}

// As far as a pair is narrower than half a turn, its centre and its uncertainty are those
// of halving a piston's.
func TestLobeIsHalved(t *testing.T) {
	p := evidence.DefaultProtractor()
	pairs := []halve.Pair{{First: degrees(68), Second: degrees(152)}, {First: degrees(80), Second: degrees(141)}, {First: degrees(90), Second: degrees(130)}}
	piston, err := halve.Pairs(p, pairs)
	require.NoError(t, err)
	lobe, err := halve.Lobe(p, pairs)
	require.NoError(t, err)
	require.Equal(t, piston.TDC, lobe.Centre)
}

// What is no pair of a lobe, or pairs of more than one, says what to do.
func TestNoLobe(t *testing.T) {
	p := evidence.DefaultProtractor()
	for _, c := range []struct {
		angles []float64
		says   string
	}{
		{nil, "no pair of angles"},
		{[]float64{68, 68.5}, "the same lift on both flanks"},
		{[]float64{68, 67.5}, "the same lift on both flanks"},
		{[]float64{110, 95}, "no valve is open for the 345 deg from 110 to 95: type first the angle at which it was opening"},
		{[]float64{68, 152, 152, 68}, "half a turn apart. Type first in each pair the angle at which the valve was opening"},
		{[]float64{68, 152, 40, 190}, "unlike flanks"},
	} {
		var pairs []halve.Pair
		for i := 0; i < len(c.angles); i += 2 {
			pairs = append(pairs, halve.Pair{First: degrees(c.angles[i]), Second: degrees(c.angles[i+1])})
		}
		_, err := halve.Lobe(p, pairs)
		require.ErrorContains(t, err, c.says)
	}
	_, err := halve.Lobe(p, []halve.Pair{{First: 0, Second: geometry.Turn / 2}}) // as open as many are
	require.NoError(t, err)
}
