package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
)

var nan, inf = geometry.Length(math.NaN()), geometry.Length(math.Inf(1))

// Geometry that cannot turn, and what is no length (Soylemez 7.2).
func TestImpossibleGeometry(t *testing.T) {
	for _, row := range []struct {
		stroke, rod, offset geometry.Length
		want                string
	}{
		{0, 146, 0, "stroke 0 mm is not a length above zero"},
		{-86, 146, 0, "stroke -86 mm is not a length above zero"},
		{nan, 146, 0, "stroke NaN mm is not a length"},
		{inf, 146, 0, "stroke +Inf mm is not a length"},
		{86, 0, 0, "rod 0 mm is not a length above zero"},
		{86, -146, 0, "rod -146 mm is not a length above zero"},
		{86, nan, 0, "rod NaN mm is not a length"},
		{86, inf, 0, "rod +Inf mm is not a length"},
		{86, 146, nan, "offset NaN mm is not a length"},
		{86, 146, inf, "offset +Inf mm is not a length"},
		{86, 146, -inf, "offset -Inf mm is not a length"},
		{86, 43, 0, "rod 43 mm is too short: it must be longer than half the stroke, 43 mm"},
		{86, 40, 0, "rod 40 mm is too short"},
		{86, 146, 103, "offset 103 mm is too big: with rod 146 mm and stroke 86 mm it must stay under 103 mm"},
		{86, 146, -104, "offset -104 mm is too big"},
	} {
		_, err := geometry.NewSliderCrank(row.stroke, row.rod, row.offset)
		require.ErrorContains(t, err, row.want)
	}
	for _, just := range []geometry.Length{102.999, -102.999} {
		require.Equal(t, just, must(t, 86, 146, just).Offset())
	}
	require.Equal(t, 43.001*mm, must(t, 86, 43.001, 0).Rod())
}

// WithOffset is a new slider-crank, but held just inside what can turn.
func TestWithOffset(t *testing.T) {
	s := must(t, 86, 146, 3)
	for _, row := range []struct{ ask, get geometry.Length }{
		{0, 0}, {8, 8}, {-20.5, -20.5}, {102.8, 102.8},
		{103, 0.999 * 103}, {1e9, 0.999 * 103}, {inf, 0.999 * 103}, {-103, -0.999 * 103}, {-inf, -0.999 * 103},
	} {
		got := s.WithOffset(row.ask)
		require.Equal(t, must(t, 86, 146, row.get), got, "asked for %v", row.ask)
	}
	require.Equal(t, 3*mm, s.Offset(), "the first is as it was")
}

// A cylinder of bore 100 and stroke 100 sweeps pi/4 litres, and more by its
// offset; ratio 11 leaves a tenth of that. Heywood 2.4 to 2.6, closed forms; a
// rounding or two.
func TestCylinder(t *testing.T) {
	s := must(t, 100, 200, 0)
	c, err := geometry.NewCylinder(s, 100, 11)
	require.NoError(t, err)
	swept := math.Pi * 250 // cm^3
	for _, row := range []struct {
		what      string
		got, want float64
	}{
		{"swept", c.Swept().CubicCentimetres(), swept},
		{"clearance", c.Clearance().CubicCentimetres(), swept / 10},
		{"at TDC", c.VolumeAt(0).CubicCentimetres(), swept / 10},
		{"at BDC", c.VolumeAt(180 * deg).CubicCentimetres(), swept * 1.1},
		{"at 90 deg, R = 4", c.VolumeAt(-90 * deg).CubicCentimetres(), swept * (0.1 + (5-math.Sqrt(15))/2)},
	} {
		near(t, row.want, row.got, 1e-12*row.want, row.what)
	}

	offset, err := geometry.NewCylinder(must(t, 100, 200, 30), 2*geometry.Inch, 8.5)
	require.NoError(t, err)
	area := math.Pi / 4 * 50.8 * 50.8
	near(t, area*float64(offset.Stroke()), float64(offset.Swept()), 1e-8, "swept, with offset")
	bottom := offset.VolumeAt(offset.BDC() - offset.TDC())
	near(t, 8.5, float64(bottom/offset.VolumeAt(0)), 1e-12, "compression ratio")
	near(t, area*float64(offset.Drop(-40*deg)), float64(offset.VolumeAt(-40*deg)-offset.Clearance()), 1e-8, "above TDC's")
}

func TestImpossibleCylinder(t *testing.T) {
	for _, row := range []struct {
		bore        geometry.Length
		compression float64
		want        string
	}{
		{0, 10, "bore 0 mm is not a length above zero"},
		{-80, 10, "bore -80 mm"},
		{nan, 10, "bore NaN mm"},
		{inf, 10, "bore +Inf mm"},
		{80, 1, "compression ratio 1 must be above 1"},
		{80, 0.5, "compression ratio 0.5"},
		{80, math.NaN(), "compression ratio NaN"},
		{80, math.Inf(1), "compression ratio +Inf"},
	} {
		_, err := geometry.NewCylinder(must(t, 86, 146, 0), row.bore, row.compression)
		require.ErrorContains(t, err, row.want)
	}
}
