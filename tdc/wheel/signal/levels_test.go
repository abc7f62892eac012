package signal

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A sketch keeps one sample of each block, in order, and as many at each place of
// it: an eighth of them at each of 8 places, within four standard deviations (of
// counts, a square root).
func TestSketchIsInStepWithNothing(t *testing.T) {
	var k Sketch
	const samples = 1 << 20
	for i := range samples {
		k.Take(float64(i))
	}
	require.GreaterOrEqual(t, len(k.Kept), mostKept/2)
	var late [8]int
	for i, v := range k.Kept {
		if i > 0 {
			require.Greater(t, v, k.Kept[i-1])
			require.LessOrEqual(t, v-k.Kept[i-1], float64(2*k.block))
		}
		if v > samples/2 {
			late[int(v)%8]++
		}
	}
	expected := float64(samples/2/k.block) / 8
	for place, n := range late {
		require.InDelta(t, expected, float64(n), 4*math.Sqrt(expected), "place %d", place)
	}
}
