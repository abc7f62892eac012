package geometry_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"pgregory.net/rapid"

	"evendrop/geometry"
)

// Lopsided mechanisms and angles, no two coordinates alike. A central difference
// of step 1e-4 is off by its square times a third derivative of up to 300, over
// six, which is 5e-7, and by the roundings of heights of 200 mm over the step,
// 3e-10; values are 1 to 100.
func TestDerivatives(t *testing.T) {
	settings := &fd.Settings{Formula: fd.Central, Step: 1e-4}
	for _, s := range []geometry.SliderCrank{
		must(t, 86, 143, 10), must(t, 80, 120, -20), must(t, 81.4, 133, 0), must(t, 100, 140, 37),
	} {
		for _, degrees := range []float64{-163, -71, -8.5, 0, 3.7, 31, 90, 114, 188} {
			u := degrees * float64(deg)
			drop, slope, byOffset := s.Motion(geometry.Angle(u))
			near(t, fd.Derivative(func(u float64) float64 {
				return float64(s.Drop(geometry.Angle(u)))
			}, u, settings), float64(slope), 1e-6, "slope")
			near(t, fd.Derivative(func(e float64) float64 {
				return float64(s.WithOffset(geometry.Length(e)).Drop(geometry.Angle(u)))
			}, float64(s.Offset()), settings), byOffset, 1e-7, "by offset")

			require.Equal(t, drop, s.Drop(geometry.Angle(u)))
			require.Equal(t, slope, s.Slope(geometry.Angle(u)))
		}
	}
}

// kmoddl is the piston pin's height above the crank axis at phi from throw-along-bore:
// r cos phi + sqrt(l^2 - (r sin phi - e)^2) (KMODDL).
func kmoddl(s geometry.SliderCrank, phi geometry.Angle) geometry.Length {
	r, l, e := float64(s.Throw()), float64(s.Rod()), float64(s.Offset())
	sin, cos := math.Sincos(float64(phi))
	return geometry.Length(r*cos + math.Sqrt(l*l-(r*sin-e)*(r*sin-e)))
}

// Whatever the mechanism: zero at TDC and level there, the stroke at BDC and
// level there, between the two elsewhere, the same a turn on, and the height's
// counterpart. Roundings of lengths up to 10 m.
func TestDropAlways(t *testing.T) {
	check(t, func(t *rapid.T) {
		s := anySliderCrank(t)
		u := geometry.Angle(rapid.Float64Range(-360, 360).Draw(t, "u")) * deg
		rounding := 1e-13 * (s.Top() + s.Rod())
		drop := s.Drop(u)
		require.True(t, drop >= -rounding && drop <= s.Stroke()+rounding, "drop %v", drop)
		near(t, s.Top()-kmoddl(s, s.TDC()+u), drop, rounding, "top less height")
		near(t, drop, s.Drop(u+geometry.Turn), 10*rounding, "a turn on")
		near(t, 0, s.Drop(0), rounding, "drop at TDC")
		near(t, s.Stroke(), s.Drop(s.BDC()-s.TDC()), rounding, "drop at BDC")
		near(t, 0, float64(s.Slope(0)), float64(rounding), "slope at TDC")
		near(t, 0, float64(s.Slope(s.BDC()-s.TDC())), 100*float64(rounding), "slope at BDC, steep for a short rod")
		require.GreaterOrEqual(t, float64(s.Stroke()+rounding), float64(2*s.Throw()))

		mirrored := must(t, 2*s.Throw(), s.Rod(), -s.Offset())
		near(t, drop, mirrored.Drop(-u), rounding, "mirrored")
		_, slope, byOffset := s.Motion(u)
		_, back, byBack := mirrored.Motion(-u)
		near(t, -slope, back, geometry.Slope(100*rounding), "slope, mirrored")
		near(t, -byOffset, byBack, 1e-10, "by offset, mirrored")
	})
}
