package chart

import (
	"math"
	"strconv"
	"testing"

	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// An axis shows everything that is on it and not twice as much; its ticks are evenly
// spaced at 1, 2 or 5 times a power of ten, or at a part of a turn, and are labelled
// with what they are.
func TestScaleAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var e extent
		a, b := drawtest.Between(-1000, 1000).Draw(t, "a"), drawtest.Between(-1000, 1000).Draw(t, "b")
		e.take(a, b)
		angle := rapid.Bool().Draw(t, "angle")
		s := newScale(Axis{Angle: angle}, e)
		require.LessOrEqual(t, s.from, e.low+rounding*s.step)
		require.GreaterOrEqual(t, s.to, e.high-rounding*s.step)
		if e.low < e.high {
			require.LessOrEqual(t, s.to-s.from, 2*(e.high-e.low)+s.step)
		}
		require.GreaterOrEqual(t, len(s.Ticks), 2)
		require.LessOrEqual(t, len(s.Ticks), mostTicks+3)
		for i, tick := range s.Ticks {
			if i > 0 {
				require.InDelta(t, s.step, tick-s.Ticks[i-1], 1e-9*s.step)
			}
			shown, err := strconv.ParseFloat(s.Label(tick), 64)
			require.NoError(t, err)
			require.InDelta(t, tick, shown, rounding*s.step, "the label has all its digits")
			require.NotRegexp(t, `^-0\.?0*$`, s.Label(tick), "never minus zero")
		}
		if angle && s.step >= 1 {
			require.Zero(t, math.Mod(360, s.step), "a turn is a whole number of steps")
			return
		}
		first := s.step / math.Pow(10, math.Floor(math.Log10(s.step)+1e-9))
		require.Contains(t, []int{1, 2, 5}, int(math.Round(first)))
		require.InDelta(t, math.Round(first), first, 1e-9)
	})
}

// Where a value is on the axis is in proportion, and the ends are its ends.
func TestScaleIsLinear(t *testing.T) {
	s := newScale(Axis{From: -20, To: 60}, extent{})
	for value, want := range map[float64]float64{-20: 0, 0: 0.25, 20: 0.5, 60: 1} {
		require.InDelta(t, want, s.At(value), 1e-12)
	}
}
