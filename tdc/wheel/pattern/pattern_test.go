package pattern_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/wheel/pattern"
)

// edges are the times of four turns' edges, at an even speed but for a twentieth more
// in each second half of a turn.
func edges(pitches int, missing ...int) (times []float64) {
	t := 0.0
	for i := range 4 * pitches {
		gone := false
		for _, m := range missing {
			gone = gone || i%pitches == m
		}
		if !gone {
			times = append(times, t)
		}
		if t++; i%pitches >= pitches/2 {
			t -= 0.05
		}
	}
	return times
}

// A pattern is named from its gap on, and of equal parts as the whole turn.
func TestPatterns(t *testing.T) {
	require.Equal(t, "60-2", pattern.Of(edges(60, 58, 59)).Written(1))
	require.Equal(t, "60-2", pattern.Of(edges(60, 10, 11)).Written(1)) // begun anywhere
	require.Equal(t, "36-1", pattern.Of(edges(36, 35)).Written(1))
	require.Equal(t, "16x10,30,14x10,30", pattern.Of(edges(36, 17, 18, 34, 35)).Written(1))
	require.Nil(t, pattern.Of(edges(60))) // no gap
	require.Nil(t, pattern.Of(nil))

	thirds := pattern.Of(edges(12, 10, 11))
	require.Equal(t, 12, thirds.Pitches())
	require.Equal(t, []int{2, 2, 2}, thirds.Gaps(3))
	require.Equal(t, "36-2-2-2", thirds.Name(3))
	require.Equal(t, "9x10,30,9x10,30,9x10,30", thirds.Written(3))
	w, err := thirds.Wheel(3)
	require.NoError(t, err)
	require.Equal(t, 3, w.Parts())
}
