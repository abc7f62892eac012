package timing_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/wheel/signal"
)

// What is folded goes up and down where the edges were found, and nowhere else.
func TestFoldedSignalsTurnAtTheirEdges(t *testing.T) {
	e := idlingEngine()
	data := e.capture(plainTable())
	r, err := measure(data, "60-2", columns(1))
	require.NoError(t, err)
	folded, err := r.Fold(bytes.NewReader(data))
	require.NoError(t, err)
	require.Len(t, folded, 2)
	require.Equal(t, r.Edges[0].Channel, folded[1].Column)
	cam := folded[1]
	middle := (cam.Least + cam.Most) / 2
	high := cam.Envelope[len(cam.Envelope)-1].Low > middle
	for _, s := range cam.Envelope {
		require.LessOrEqual(t, s.Low, s.High)
		// Edges wander a little and fall into intervals of 0.5 deg.
		near := false
		for _, edge := range r.Edges {
			if away := s.Angle - edge.Angle; away > -2*geometry.Degree && away < 2*geometry.Degree {
				near = true
				high = edge.Kind == signal.Rising
			}
		}
		if !near {
			require.Equal(t, high, s.Low > middle, "%v deg", s.Angle.Degrees())
			require.Equal(t, high, s.High > middle, "%v deg", s.Angle.Degrees())
		}
	}
	require.InDelta(t, 2*r.Period.Degrees(), float64(len(cam.Envelope)), 2) // every interval seen
	_, err = r.Fold(bytes.NewReader(data[:len(data)/2]))
	require.ErrorContains(t, err, "something is writing to it")
}
