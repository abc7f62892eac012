package tdc_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// Depths or dimensions in another unit than stated are named as such, with what to
// type: an inch is 25.4 mm (ISO 31-1; the international inch of 1959), the rest are
// powers of ten.
func TestWrongUnits(t *testing.T) {
	right := swept(3, evidence.Forward, -34, -28, -22, -16, -10, 10, 16, 22, 28, 34)
	require.Empty(t, find(t, carEngine(86, 146), right).CannotTell)
	for _, c := range []struct {
		depths      float64
		stroke, rod geometry.Length
		misread     finding.Misread
	}{
		{1 / 25.4, 86, 146, finding.DepthsInches},
		{25.4, 86, 146, finding.DepthsMillimetresAsInches},
		{1 / 0.0254, 86, 146, finding.DepthsThou},
		{10, 86, 146, finding.DepthsPointLost},
		{0.1, 86, 146, finding.DepthsCentimetres},
		{100, 86, 146, finding.DepthsHundredths},
		{1000, 86, 146, finding.DepthsThousandths},
		{0.001, 86, 146, finding.DepthsMetres},
		{1, 3.386, 5.748, finding.StrokeInches},
		{1, 3.386, 146, finding.StrokeInches},
		{1, 8.6, 14.6, finding.StrokeCentimetres},
		{1, 0.086, 0.146, finding.StrokeMetres},
		{1, 2184.4, 3708.4, finding.StrokeMillimetresAsInches},
		{25.4, 86 * 1.03, 146, finding.DepthsMillimetresAsInches},
	} {
		read := append([]evidence.Reading(nil), right...)
		for i := range read {
			read[i].Depth *= geometry.Length(c.depths)
		}
		r, err := tdc.Find(carEngine(float64(c.stroke), float64(c.rod)), evidence.Cylinder{Readings: read})
		unit, ok := isKind[finding.WrongUnit](r, err)
		require.True(t, ok, "%+v: %v, %v", c, r.CannotTell, err)
		require.Equal(t, c.misread, unit.Misread, "%+v", c)
		if err == nil {
			require.Equal(t, r.CannotTell, r.Findings[0])
		}
		if c.depths == 1 { // what the stroke was meant to be
			require.InDelta(t, 86, unit.Meant.Millimetres(), 0.01)
		}
	}
	const seed, draws = 20261128, 20
	rng, named := rand.New(rand.NewPCG(seed, 1)), 0
	for range draws { // readings of no piston are in no unit
		noise := append([]evidence.Reading(nil), right...)
		for i := range noise {
			noise[i].Depth = geometry.Length(80 * rng.Float64())
		}
		r, err := tdc.Find(carEngine(8.6, 14.6), evidence.Cylinder{Readings: noise})
		if _, ok := isKind[finding.WrongUnit](r, err); ok {
			named++
		}
	}
	t.Logf("seed %d: a unit named in %d of %d draws of noise", seed, named, draws)
	require.Zero(t, named)
	tilted := append([]evidence.Reading(nil), right...)
	for i := range tilted {
		tilted[i].Depth *= 3 // no unit
	}
	_, ok := isKind[finding.WrongUnit](find(t, carEngine(86, 146), tilted), nil)
	require.False(t, ok)
}

// A rod that is shorter than the throw is most often in another unit.
func TestUnlikeUnits(t *testing.T) {
	for rod, hint := range map[geometry.Length]string{5.748: `rod = "5.748 in"`, 0.146: "rod = 146, in mm", 14.6: "rod = 146, in mm"} {
		_, err := evidence.Engine{Stroke: 86, Rod: rod}.SliderCrank()
		require.ErrorContains(t, err, hint)
	}
	_, err := evidence.Engine{Stroke: 2184.4, Rod: 146}.SliderCrank()
	require.ErrorContains(t, err, `stroke = "86 mm"`)
	_, err = evidence.Engine{Stroke: 86, Rod: 40}.SliderCrank()
	require.ErrorContains(t, err, "43 mm")
	require.NotContains(t, err.Error(), "if the")
}

// A reading where the piston never comes is told so.
func TestImpossiblePositions(t *testing.T) {
	read := swept(3, evidence.Forward, -34, -28, -22, -16, -10, 10, 16, 22, 28, 34)
	read[3].Depth += 100
	require.Equal(t, geometry.Length(86), all[finding.SuspectReading](find(t, carEngine(86, 146), read))[0].DeeperThan)
	read[3].Depth -= 110
	require.Positive(t, all[finding.SuspectReading](find(t, carEngine(86, 146), read))[0].AboveTop)
	read[3].Depth += 13
	r := find(t, carEngine(86, 146), read)
	suspect := all[finding.SuspectReading](r)[0]
	require.Zero(t, suspect.DeeperThan)
	require.Zero(t, suspect.AboveTop)
}
