package geometry_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
)

// A volume's angles give the volume back: at TDC, between, and at BDC. Volumes
// of 600,000 mm^3 round to 1e-10, over an area of 5800 mm^2.
func TestAnglesAtVolume(t *testing.T) {
	c, err := geometry.NewCylinder(must(t, 86, 146, 8), 86, 10.5)
	require.NoError(t, err)
	before, after, err := c.AnglesAtVolume(c.Clearance())
	require.NoError(t, err)
	require.Zero(t, before)
	require.Zero(t, after)
	for _, degrees := range []geometry.Angle{1, 40, 150} {
		for _, u := range []geometry.Angle{-degrees * deg, degrees * deg} {
			before, after, err := c.AnglesAtVolume(c.VolumeAt(u))
			require.NoError(t, err)
			got := after
			if u < 0 {
				got = before
			}
			near(t, u, got, 1e-12, "angle") // of 2e-14 mm over a slope of 0.9 mm a radian and more
		}
	}
	_, after, err = c.AnglesAtVolume(c.Clearance() + c.Swept())
	require.NoError(t, err)
	near(t, c.BDC()-c.TDC(), after, 1e-6, "BDC: level there, so a rounding is a root")

	for _, v := range []geometry.Volume{0, c.Clearance() * 0.999, (c.Clearance() + c.Swept()) * 1.001} {
		_, _, err := c.AnglesAtVolume(v)
		require.ErrorContains(t, err, "not between the volumes at TDC and BDC")
	}
}
