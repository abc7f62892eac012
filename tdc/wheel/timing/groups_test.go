package timing

import (
	"math"
	"testing"

	"evendrop/geometry"

	"github.com/stretchr/testify/require"
)

// Passings either side of the cycle's seam are one edge, with its mean there.
func TestGroupOverTheSeam(t *testing.T) {
	var all []sighting
	for _, deg := range []float64{719, 0.5, 1, 720 + 719.5, 300} {
		all = append(all, sighting{channel: 1, rising: true, angle: geometry.Angle(deg) * geometry.Degree})
	}
	got := groups(all, cycle)
	require.Len(t, got, 2)
	require.InDelta(t, 0, math.Remainder(got[0].mean(cycle).Degrees(), 720), 1e-9)
	require.InDelta(t, 300, got[1].mean(cycle).Degrees(), 1e-9)
	// about a mean of 0: 1, 0.5, 1 and 0.5 deg off
	require.InDelta(t, math.Sqrt(2.5/3), got[0].deviation().Degrees(), 1e-9)
}
