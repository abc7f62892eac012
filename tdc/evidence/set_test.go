package evidence_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
)

// A cylinder's evidence by set: readings in their order, stops, dwells and views in the
// first, which is there without readings where they are.
func TestSets(t *testing.T) {
	c := evidence.Cylinder{Number: 2, Throw: 1, Readings: []evidence.Reading{{Depth: 1}, {Depth: 2, Set: 1}, {Depth: 3, Set: 2}, {Depth: 4, Set: 2}}}
	sets := c.Sets()
	require.Len(t, sets, 2)
	require.Equal(t, []int{1, 2}, []int{sets[0].Number, sets[1].Number})
	require.Equal(t, c.Readings[:2], sets[0].Readings)
	require.Equal(t, c.Readings[2:], sets[1].Readings)
	require.Equal(t, 2, sets[1].Cylinder.Number)
	require.Equal(t, c.Throw, sets[1].Throw)

	c.Readings = c.Readings[2:]
	require.Len(t, c.Sets(), 1)
	_, read := c.In(1)
	require.False(t, read)
	c.Stops, c.Dwell, c.Views = make([]evidence.Stop, 1), make([]evidence.DwellPair, 2), make([]evidence.View, 3)
	sets = c.Sets()
	require.Len(t, sets, 2)
	require.Empty(t, sets[0].Readings)
	require.Len(t, sets[0].Stops, 1)
	require.Len(t, sets[0].Dwell, 2)
	require.Len(t, sets[0].Views, 3)
	require.Empty(t, sets[1].Stops)
	require.Empty(t, sets[1].Dwell)
	require.Empty(t, sets[1].Views)
	for _, set := range []int{0, 1} {
		first, read := c.In(set)
		require.True(t, read)
		require.Len(t, first.Stops, 1)
	}

	require.Len(t, evidence.Cylinder{Number: 3}.Sets(), 1)
	_, read = evidence.Cylinder{}.In(1)
	require.False(t, read)
}
