package tdc_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
)

// Depths or dimensions in another unit than stated are named as such, with what to
// type: an inch is 25.4 mm (ISO 31-1; the international inch of 1959), the rest are
// powers of ten.
func TestWrongUnits(t *testing.T) {
	right := swept(3, evidence.Forward, -34, -28, -22, -16, -10, 10, 16, 22, 28, 34)
	require.Empty(t, find(t, carEngine(86, 146), right).CannotTell)
	for _, c := range []struct {
		depths       float64
		stroke, rod  geometry.Length
		says, toType string
	}{
		{1 / 25.4, 86, 146, "look like inches", "depth_in"},
		{25.4, 86, 146, "millimetres taken as inches", `unit = "mm"`},
		{1 / 0.0254, 86, 146, "thousandths of an inch", "0.384 in for 384"},
		{10, 86, 146, "decimal point", "a tenth as great"},
		{0.1, 86, 146, "look like centimetres", "ten times as great"},
		{100, 86, 146, "hundredths of a millimetre", "9.76 for 976"},
		{1000, 86, 146, "look like thousandths", "0.384 for 384"},
		{0.001, 86, 146, "look like metres", "each in mm"},
		{1, 3.386, 5.748, "stroke and rod look like inches", `stroke = "3.386 in"`},
		{1, 3.386, 146, "stroke and rod look like inches", `stroke = "3.386 in"`},
		{1, 8.6, 14.6, "look like centimetres", "stroke = 86"},
		{1, 0.086, 0.146, "look like metres", "stroke = 86"},
		{1, 2184.4, 3708.4, "millimetres taken as inches", `stroke = "86 mm"`},
		{25.4, 86 * 1.03, 146, "millimetres taken as inches", `unit = "mm"`},
	} {
		read := append([]evidence.Reading(nil), right...)
		for i := range read {
			read[i].Depth *= geometry.Length(c.depths)
		}
		r, err := tdc.Find(carEngine(float64(c.stroke), float64(c.rod)), evidence.Cylinder{Readings: read})
		said := r.CannotTell
		if err != nil {
			said = err.Error()
		} else {
			require.Contains(t, r.Warnings[0], c.toType, "%+v %q", c, r.CannotTell)
		}
		require.Contains(t, said, c.says, "%+v", c)
		require.Contains(t, said, c.toType)
	}
	const seed, draws = 20261128, 20
	rng, named := rand.New(rand.NewPCG(seed, 1)), 0
	for range draws { // readings of no piston are in no unit
		noise := append([]evidence.Reading(nil), right...)
		for i := range noise {
			noise[i].Depth = geometry.Length(80 * rng.Float64())
		}
		r, err := tdc.Find(carEngine(8.6, 14.6), evidence.Cylinder{Readings: noise})
		if err != nil && strings.Contains(err.Error(), "times as far") || strings.Contains(r.CannotTell, "times as far") {
			named++
		}
	}
	t.Logf("seed %d: a unit named in %d of %d draws of noise", seed, named, draws)
	require.Zero(t, named)
	tilted := append([]evidence.Reading(nil), right...)
	for i := range tilted {
		tilted[i].Depth *= 3 // no unit
	}
	require.NotContains(t, find(t, carEngine(86, 146), tilted).CannotTell, "times as far")
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
	require.True(t, warned(find(t, carEngine(86, 146), read), "the stroke is 86 mm in all"))
	read[3].Depth -= 110
	require.True(t, warned(find(t, carEngine(86, 146), read), "above its highest point"))
	read[3].Depth += 13
	r := find(t, carEngine(86, 146), read)
	require.True(t, warned(r, "does not fit"))
	require.False(t, warned(r, "No piston"))
}
