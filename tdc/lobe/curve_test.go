package lobe_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
)

// benchTDC is how well the TDC of tdcAt is known, degrees.
const benchTDC = 2e-3

// Every reading lies where it was read, after TDC, its turns counted; those before the
// closing flank are told from those on it.
func TestPlaced(t *testing.T) {
	read := rows(145.5, 0.75, 149.5, 0.99, 154.5, 1.31, 268.5, 8.79, 25, 1.30, 29.5, 0.98, 34.5, 0.73)
	m := measured(t, lobe.Lobe{Valve: lobe.Exhaust, Card: lobe.Card{Lift: 1}, Readings: read})
	want := []float64{145.5 - 360, 149.5 - 360, 154.5 - 360, 268.5 - 360, 25, 29.5, 34.5}
	placed := m.Placed()
	require.Len(t, placed, len(want))
	for i, p := range placed {
		require.InDelta(t, want[i], p.Angle.Degrees(), benchTDC)
		require.Equal(t, read[i].Lift, p.Lift)
		require.Equal(t, i < 4, p.Opens)
	}
}

// The curve goes through every reading, passes the checking lift at the events, and in
// the middle of two readings is in the middle of their asin sqrt(lift/top).
func TestCurve(t *testing.T) {
	m := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: card(), Readings: sound()})
	placed, curve := m.Placed(), m.Curve(geometry.Degree)
	at := func(a geometry.Angle) float64 { // straight between its corners
		for k := 1; k < len(curve); k++ {
			if from, to := curve[k-1], curve[k]; a <= to.Angle {
				return float64(from.Lift) + float64((a-from.Angle)/(to.Angle-from.Angle))*float64(to.Lift-from.Lift)
			}
		}
		return math.NaN()
	}
	// mm between two corners a degree apart: 9.2 times 2 x 1.875 (1/160)^2 / 8 at the nose,
	// where it bends most, and as much again where readings are joined
	const bend = 0.0005
	straight := func(p lobe.Point) float64 { return math.Asin(math.Sqrt(float64(p.Lift / m.Top))) }
	for k, p := range placed {
		require.InDelta(t, float64(p.Lift), at(p.Angle), 1e-9)
		if k > 0 {
			middle := math.Sin((straight(placed[k-1]) + straight(p)) / 2)
			require.InDelta(t, float64(m.Top)*middle*middle, at((placed[k-1].Angle+p.Angle)/2), bend)
		}
	}
	require.InDelta(t, 1, at(m.Events.Opens.Angle), bend)
	require.InDelta(t, 1, at(m.Events.Closes.Angle), bend)
	for k := 1; k < len(curve); k++ {
		require.LessOrEqual(t, curve[k].Angle-curve[k-1].Angle, geometry.Degree*(1+1e-9))
		require.Equal(t, curve[k].Angle <= placed[8].Angle, curve[k].Lift >= curve[k-1].Lift, "up to the top and down again")
	}
}

// The line of a leaning lobe's middles lies where its flanks have them at every lift, and
// ends at the nose. The lobe's own middles bend by some hundredths of a degree.
func TestLeaning(t *testing.T) {
	c := lobetest.Cam{Shape: lobetest.Shapes[1], Nose: 108}
	var pairs []float64
	for _, side := range []float64{-1, 1} {
		lifts := []float64{0.5, 0.9, 1.3, 3, 5, 7, 8.5}
		for i := range lifts {
			lift := lifts[i]
			if side > 0 {
				lift = lifts[len(lifts)-1-i]
			}
			pairs = append(pairs, c.Event(lift, side), lift)
		}
		if side < 0 {
			pairs = append(pairs, c.Nose, c.Top)
		}
	}
	m := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: lobe.Card{Lift: 1}, Readings: rows(pairs...)})
	line := m.Leaning(10)
	require.Len(t, line, 7*10+1)
	for k, p := range line {
		lift := float64(p.Lift)
		require.InDelta(t, (c.Event(lift, -1)+c.Event(lift, 1))/2, p.Angle.Degrees(), 0.05, "%g mm", lift)
		if k > 0 {
			require.Greater(t, p.Lift, line[k-1].Lift)
		}
	}
	require.Equal(t, lobe.Point{Angle: m.Lean.Nose.Angle, Lift: m.Top}, line[len(line)-1])
	require.Less(t, line[len(line)-1].Angle, line[0].Angle-7*deg)

	m.Levels[0].Apart, m.Levels[0].Lift, m.Levels[0].Duration = true, 4, 0
	require.Len(t, m.Leaning(10), 6*10+1, "one that lies apart bends no line")
}

// A lobe whose events were not read is nowhere.
func TestNowhere(t *testing.T) {
	m := measured(t, lobe.Lobe{Valve: lobe.Inlet, Card: lobe.Card{Lift: 0.2}, Readings: sound()})
	require.Nil(t, m.Events)
	require.Empty(t, m.Placed())
	require.Empty(t, m.Curve(geometry.Degree))
	m.Lean = nil
	require.Empty(t, m.Leaning(3))
}

// A card's centre is taken in the turn that lies nearest, with the duration if it says one.
func TestCardBeside(t *testing.T) {
	for _, c := range []struct {
		card                      lobe.Card
		another, centre, duration float64
		says                      bool
	}{
		{lobe.Card{HasEvents: true, Opens: -12 * deg, Closes: 228 * deg}, 124, 108, 240, true},
		{lobe.Card{HasEvents: true, Opens: 130 * deg, Closes: 10 * deg}, -93, -110, 240, true},
		{lobe.Card{HasCentre: true, Centre: -175 * deg}, 178, 185, 0, true},
		{lobe.Card{}, 100, 0, 0, false},
	} {
		centre, duration, says := c.card.Beside(geometry.Angle(c.another) * deg)
		require.Equal(t, c.says, says)
		if says {
			require.InDelta(t, c.centre, centre.Degrees(), 1e-9)
			require.InDelta(t, c.duration, duration.Degrees(), 1e-9)
		}
	}
}
