package chart

import (
	"testing"

	"evendrop/cmd/internal/chart/draw"

	"github.com/stretchr/testify/require"
)

// Ticks a person would choose: steps of 1, 2 and 5, parts of a turn for angles,
// numbers with no more decimals than the step has.
func TestTicks(t *testing.T) {
	for _, c := range []struct {
		axis      Axis
		low, high float64
		from, to  float64
		labels    []string
	}{
		{Axis{}, 0, 7.35, 0, 7.5, []string{"0", "1", "2", "3", "4", "5", "6", "7"}},
		{Axis{}, -0.031, 0.012, -0.035, 0.015, []string{"-0.03", "-0.02", "-0.01", "0.00", "0.01"}},
		{Axis{}, 0, 1480, 0, 1500, []string{"0", "200", "400", "600", "800", "1000", "1200", "1400"}},
		{Axis{From: -30, To: 30, Angle: true}, 0, 0, -30, 30, []string{"-30", "-20", "-10", "0", "10", "20", "30"}},
		{Axis{From: -180, To: 180, Angle: true}, 0, 0, -180, 180, []string{"-180", "-135", "-90", "-45", "0", "45", "90", "135", "180"}},
		{Axis{From: 0, To: 360, Angle: true}, 0, 0, 0, 360, []string{"0", "45", "90", "135", "180", "225", "270", "315", "360"}},
		{Axis{From: 3, To: -3}, 0, 0, -3, 3, []string{"-3", "-2", "-1", "0", "1", "2", "3"}},
		{Axis{Angle: true}, -0.2, 0.3, -0.2, 0.3, []string{"-0.2", "-0.1", "0.0", "0.1", "0.2", "0.3"}},
		{Axis{}, 5, 5, 4, 6, []string{"4.0", "4.5", "5.0", "5.5", "6.0"}},
	} {
		s := newScale(c.axis, extent{c.low, c.high, true})
		var labels []string
		for _, tick := range s.Ticks {
			labels = append(labels, s.Label(tick))
		}
		require.Equal(t, c.labels, labels, "%v", c)
		require.InDelta(t, c.from, s.from, 1e-12) // roundings
		require.InDelta(t, c.to, s.to, 1e-12)
		require.InDelta(t, 0, s.At(s.from), 1e-12)
		require.InDelta(t, 1, s.At(s.to), 1e-12)
	}
	require.Equal(t, "\u221212.5", draw.Pretty("-12.5"))
}

// Numbers of an axis do not lie upon one another: where all have no room, every second has it,
// or fewer, counted from zero; their lines stay.
func TestNumbersHaveRoom(t *testing.T) {
	s := newScale(Axis{}, extent{-108.8, -107.4, true})
	require.Len(t, s.Ticks, 8)
	var labels []string
	for _, tick := range s.numbered(300) {
		labels = append(labels, s.Label(tick))
	}
	require.Equal(t, []string{"-108.8", "-108.4", "-108.0", "-107.6"}, labels)
	require.Equal(t, s.Ticks, s.numbered(500))
	require.Equal(t, []float64{-2, 0, 2}, newScale(Axis{}, extent{-3, 3, true}).numbered(80))
}
