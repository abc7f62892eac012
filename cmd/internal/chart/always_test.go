package chart

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// An axis shows everything that is on it and not twice as much; its ticks are evenly
// spaced at 1, 2 or 5 times a power of ten, or at a part of a turn, and are labelled
// with what they are.
func TestScaleAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var e extent
		a, b := between(-1000, 1000).Draw(t, "a"), between(-1000, 1000).Draw(t, "b")
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

// Marks on one lane of a dial never touch, and no lane is left out.
func TestLanesAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		marks, gap, round := drawnDial(t).Marks, between(0, 10).Draw(t, "gap"), rapid.Bool().Draw(t, "round")
		given := lanes(marks, gap, round)
		used := map[int]bool{}
		for i := range marks {
			used[given[i]] = true
			for j := range i {
				if given[i] == given[j] {
					require.False(t, meet(marks[i], marks[j], gap, round))
				}
			}
		}
		for lane := range used {
			require.Less(t, lane, len(used))
		}
	})
}

// Round a circle two marks just before and just after its end are neighbours.
func TestMeetRoundTheEnd(t *testing.T) {
	a, b := DialMark{At: 359}, DialMark{At: 2}
	require.False(t, meet(a, b, 4, false))
	require.True(t, meet(a, b, 4, true))
	require.False(t, meet(a, b, 3, true), "a gap as wide is enough")
}

// Every box of a tree is under what carries it, a step further in, and a line of its own
// comes to its middle; what slipped has the heavy line and its word, and nothing else.
func TestTreeAlways(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		root := drawnNode(r, 3)
		root.Word = ""
		svg, err := Tree{Root: root}.SVG()
		all := parsed(t, svg, err)
		boxes := named(all, "rect", "member")
		ends := map[spot]string{}
		for _, class := range []string{"joint", "slipped"} {
			for _, path := range named(all, "path", class) {
				spots := path.spots(t)
				ends[spots[len(spots)-1]] = class
			}
		}
		// boxes are drawn after those that they carry
		n := 0
		var walk func(Node, int)
		walk = func(node Node, depth int) {
			for _, child := range node.Children {
				walk(child, depth+1)
			}
			at := boxes[n]
			n++
			require.InDelta(t, margin+float64(depth)*indentStep, at.at(t).x, 0.01)
			if depth == 0 {
				return
			}
			want := "joint"
			if node.Word != "" {
				want = "slipped"
			}
			require.Equal(t, want, ends[spot{at.at(t).x, at.at(t).y + boxHeight/2}])
		}
		walk(root, 0)
		require.Len(t, boxes, n)
		require.Len(t, ends, n-1)
	})
}
