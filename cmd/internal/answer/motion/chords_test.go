package motion

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
)

// below is how far a piston of 86 mm stroke on a rod of 146 mm is below its highest point u
// degrees from it, by the triangle of crank and rod: no code of the program's.
func below(u float64) float64 {
	u *= math.Pi / 180
	return 43 + 146 - 43*math.Cos(u) - math.Sqrt(146*146-math.Pow(43*math.Sin(u), 2))
}

// where is the angle after TDC at which the piston is so far below, by halving the interval.
func where(drop float64) float64 {
	low, high := 0.0, 90.0
	for range 60 {
		if middle := (low + high) / 2; below(middle) < drop {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// Turned forward half-way comes late by what half the lash makes of both ends, turned backward
// early by the same, and both ways together it is TDC; the deeper, the less.
func TestChords(t *testing.T) {
	c, err := moving(t, false, 146).Chords(0.4)
	require.NoError(t, err)
	list, err := c.chords()
	require.NoError(t, err)
	require.Len(t, list, len(chordsAt))
	before := math.Inf(1)
	for _, one := range list {
		depth := float64(one.depth)
		// rising the crank is half the lash higher than the piston, falling lower
		late := (where(depth+0.2) - where(depth-0.2)) / 2
		require.InDelta(t, late, one.forward.Degrees(), 1e-6)
		require.InDelta(t, -late, one.backward.Degrees(), 1e-6)
		require.InDelta(t, 0, one.bothWays().Degrees(), 1e-9)
		require.InDelta(t, -where(depth+0.2), one.early.Degrees(), 1e-6)
		require.InDelta(t, where(depth+0.2), one.late.Degrees(), 1e-6)
		require.Less(t, late, before)
		before = late
	}
}

// The curves lag: rising the piston is half the lash lower than the crank has it, falling
// higher, and over the top it hangs.
func TestTurnedCurves(t *testing.T) {
	c, err := moving(t, false, 146).Chords(0.4)
	require.NoError(t, err)
	for _, p := range c.turned("forward", 1).Points {
		want := below(p.X) + 0.2
		if p.X >= 0 {
			want = math.Max(below(p.X)-0.2, 0.2)
		}
		require.InDelta(t, want, p.Y, 1e-9, "at %g", p.X)
	}
	forward, backward := c.turned("forward", 1).Points, c.turned("backward", -1).Points
	for i, p := range forward {
		require.InDelta(t, p.Y, backward[len(backward)-1-i].Y, 1e-9, "the mirror image")
	}
}

// The picture says in words what it shows, and is refused where it cannot be drawn.
func TestChordsPicture(t *testing.T) {
	m := moving(t, false, 146)
	require.InDelta(t, 0.78, float64(m.SeenLash()), 1e-9)
	c, err := m.Chords(m.SeenLash())
	require.NoError(t, err)
	svg, err := c.Picture()
	require.NoError(t, err)
	for _, says := range []string{"drawn with lash of 0.78 mm", "half-way, forward", "half-way, backward", "half-way of both", "turned backward", "0.00 of both"} {
		require.Contains(t, string(svg), says)
	}
	_, err = moving(t, false, 146, 150).Chords(0)
	require.ErrorContains(t, err, "--chords draws one engine, and was given 2")
	for _, lash := range []geometry.Length{1.1, -0.1, geometry.Length(math.NaN())} {
		_, err := moving(t, false, 146).Chords(lash)
		require.ErrorContains(t, err, "expected a clearance of zero or more, up to 1.02 mm")
	}
}

// Without lash, and without an offset, half-way is TDC both ways, and nothing is said of lash;
// with an offset the title says that it is not quite, and the sentence by how much: as the sum
// of two triangles has it, no code of the program's.
func TestHalfWayWithAnOffset(t *testing.T) {
	c, err := moving(t, false, 146).Chords(0)
	require.NoError(t, err)
	svg, err := c.Picture()
	require.NoError(t, err)
	require.Contains(t, string(svg), "Half-way between equal depths is TDC; drawn without lash")
	require.NotContains(t, string(svg), "cancels")
	require.Empty(t, c.offsetNote())

	q := Question{From: -30, To: 30, By: 5, Engines: Engines{Stroke: []geometry.Length{88.9}, Rod: []geometry.Length{142.3}, PinOffset: []geometry.Length{20}}}
	m, err := Of(q)
	require.NoError(t, err)
	c, err = m.Chords(0.3)
	require.NoError(t, err)
	svg, err = c.Picture()
	require.NoError(t, err)
	require.Contains(t, string(svg), "Half-way with an offset is not quite TDC; drawn with lash of 0.3 mm")
	require.NotContains(t, string(svg), "than an engine should have")
	require.Equal(t, []string{"With this offset half-way between equal drops is not quite TDC. At a drop of 5.0964 mm it comes 0.17 deg before it, the less the nearer to the top."},
		m.offsetNote())
}

// Engines side by side have the offset as it was typed; where some have the other one too, both
// together, and then it is said how.
func TestOffsetAsTyped(t *testing.T) {
	side := func(pin, bore []geometry.Length) string {
		m, err := Of(Question{From: -30, To: 30, By: 30, Engines: Engines{Stroke: []geometry.Length{86}, Rod: []geometry.Length{146}, PinOffset: pin, BoreOffset: bore}})
		require.NoError(t, err)
		text, err := m.Text(80)
		require.NoError(t, err)
		return strings.Join(strings.Fields(string(text)), " ")
	}
	pins := side([]geometry.Length{0, 0.9}, nil)
	require.Contains(t, pins, "pin offset, mm")
	require.Contains(t, pins, "B 86 146 0.9 86.002 -0.27")
	require.NotContains(t, pins, "minus the pin's")
	require.Contains(t, side(nil, []geometry.Length{0, 0.9}), "B 86 146 0.9 86.002 +0.27")
	both := side([]geometry.Length{0, 0.9}, []geometry.Length{0, 0.5})
	require.Contains(t, both, "B 86 146 -0.4 ")
	require.Contains(t, both, "Offset is the bore's minus the pin's. TDC is counted")
}
