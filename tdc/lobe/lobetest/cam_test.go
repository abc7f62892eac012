package lobetest

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A flank begins and ends without speed or acceleration, the top is the top, and the place
// of a lift has it.
func TestShapes(t *testing.T) {
	for _, s := range Shapes {
		require.InDelta(t, s.Top, s.At(0), 1e-12)
		const by = 0.1 // degrees
		at := func(u float64) float64 { return s.At(u) - s.Ramp }
		require.InDelta(t, 0, at(s.After-by), 1e-6, s.Name) // of the third order: 9.2 x 150 x (0.1/160)^3
		require.InDelta(t, 0, at(-s.Before+by), 1e-6, s.Name)
		require.InDelta(t, s.Ramp/2, s.At(s.After+s.RampLength/2), 1e-12)
		for _, side := range []float64{-1, 1} {
			require.InDelta(t, 3, s.At(s.Where(3, side)), 1e-9)
		}
	}
}
