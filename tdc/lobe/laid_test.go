package lobe_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// invented is the inlet lobe of lobes.md 5, some of its rows changed.
func invented(change func(list []lobe.Reading) []lobe.Reading) lobe.Lobe {
	read := rows(2.5, 0.76, 7.5, 1.03, 11.5, 1.30, 30.5, 3.00, 61, 6.03, 127.5, 9.20, 194, 5.98, 223.5, 3.00, 243, 1.31, 247.5, 1.00, 251.5, 0.76)
	return lobe.Lobe{Name: "inlet", On: "inlet cam", Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(),
		Card: lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg}, Readings: change(read)}
}

// A lobe may be begun anywhere: on a flank, at its top, or on the heel; the crank's turns
// look alike, and it is the same lobe.
func TestBegunAnywhere(t *testing.T) {
	p := evidence.DefaultProtractor()
	from := tdcAt(t, 2.4, p)
	whole := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading { return l }))
	require.NotNil(t, whole.Events)
	for first := range whole.Readings {
		m := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading { return slices.Concat(l[first:], l[:first]) }))
		require.NotNil(t, m.Events, "begun at row %d: %v", first, m.CannotTell)
		require.InDelta(t, whole.Events.Opens.Angle.Degrees(), m.Events.Opens.Angle.Degrees(), 1e-9, "begun at row %d", first)
		require.InDelta(t, whole.Events.Closes.Angle.Degrees(), m.Events.Closes.Angle.Degrees(), 1e-9)
		require.InDelta(t, whole.Shift.Expanded.Degrees(), m.Shift.Expanded.Degrees(), 0.003) // the protractor's smooth error is counted along the turns, not round them
		require.Equal(t, whole.Findings, m.Findings)
	}
}

// Lifts that were left out may be read on a later lap, in whatever order: it is the same lobe.
func TestReadOnALaterLap(t *testing.T) {
	p := evidence.DefaultProtractor()
	from := tdcAt(t, 2.4, p)
	whole := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading { return l }))
	for _, left := range [][]int{{0}, {0, 10}, {5}, {0, 5, 10}, {9, 1}, {10, 5, 0}, {3, 7, 2, 8}} {
		m := lobe.Measure(p, from, invented(func(l []lobe.Reading) (order []lobe.Reading) {
			for i, r := range l {
				if !slices.Contains(left, i) {
					order = append(order, r)
				}
			}
			for _, i := range left {
				order = append(order, l[i])
			}
			return order
		}))
		require.NotNil(t, m.Events, "%v read last: %v", left, m.CannotTell)
		require.InDelta(t, whole.Events.Opens.Angle.Degrees(), m.Events.Opens.Angle.Degrees(), 1e-9, "%v", left)
		require.InDelta(t, whole.Events.Closes.Angle.Degrees(), m.Events.Closes.Angle.Degrees(), 1e-9, "%v", left)
		require.InDelta(t, whole.Shift.Angle.Degrees(), m.Shift.Angle.Degrees(), 0.01, "%v", left) // the protractor's smooth error, as for one begun anywhere
	}
}

// The highest reading is the top's where it stands in the middle of the flanks; without it the
// top was not read.
func TestTopRead(t *testing.T) {
	p := evidence.DefaultProtractor()
	from := tdcAt(t, 2.4, p)
	require.True(t, lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading { return l })).TopRead())
	without := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading { return slices.Delete(l, 5, 6) }))
	require.NotNil(t, without.Events)
	require.False(t, without.TopRead())
	require.False(t, lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading { return l[:3] })).TopRead())
}

// One row that alone keeps the lifts from rising to the top and falling from it is left out
// and named, whatever was mistyped in it; where two may be the one, or several are, none is
// left out, and the lobe says nothing of its cam.
func TestRowOutOfLine(t *testing.T) {
	p := evidence.DefaultProtractor()
	from := tdcAt(t, 2.4, p)
	whole := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading { return l }))
	require.Empty(t, found[finding.LiftOutOfLine](whole.Findings))
	for _, c := range []struct {
		row    int
		change func(r *lobe.Reading)
	}{
		{2, func(r *lobe.Reading) { r.Lift = 0.13 }},
		{1, func(r *lobe.Reading) { r.Lift += 1 }},
		{4, func(r *lobe.Reading) { r.Lift = 0.603 }},
		{10, func(r *lobe.Reading) { r.Lift = 7.6 }},
		{7, func(r *lobe.Reading) { r.Lift = 30 }}, // which looks like the top
		{8, func(r *lobe.Reading) { r.Angle += 10 * deg }},
	} {
		m := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading {
			c.change(&l[c.row])
			return l
		}))
		out := found[finding.LiftOutOfLine](m.Findings)
		require.Len(t, out, 1, "row %d", c.row)
		require.True(t, out[0].LeftOut, "row %d", c.row)
		require.Equal(t, whole.Readings[c.row].Line, out[0].Line)
		require.InDelta(t, 9.2, float64(m.Top), 1e-9)
		require.NotNil(t, m.Events)
		require.InDelta(t, whole.Shift.Angle.Degrees(), m.Shift.Angle.Degrees(), 0.5, "row %d", c.row) // of readings farther apart
		_, says := m.Mark()
		require.True(t, says)
	}
	swapped := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading {
		l[1].Lift, l[2].Lift = l[2].Lift, l[1].Lift
		return l
	}))
	out := found[finding.LiftOutOfLine](swapped.Findings)
	require.Len(t, out, 1)
	require.False(t, out[0].LeftOut)
	require.InDelta(t, 7.5, out[0].Angle.Degrees(), 1e-9)
	require.Equal(t, out[0], swapped.NoEvidence)
	_, says := swapped.Mark()
	require.False(t, says)

	// what the gauge, the heel and the protractor make of neighbours is in order
	near := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading {
		l[1].Lift, l[2].Lift, l[2].Angle = 1.30, 1.03, l[1].Angle+0.5*deg
		return append(l[:1:1], append([]lobe.Reading{{Angle: l[0].Angle - 20*deg, Lift: 0.80}}, l[1:]...)...)
	}))
	require.Empty(t, found[finding.LiftOutOfLine](near.Findings))
}

// Rows that follow one another as the crank turns backward say nothing of a cam, for nobody
// knows on which side the drive's slack was; one that was read again after going back is in
// order.
func TestRunBack(t *testing.T) {
	p := evidence.DefaultProtractor()
	from := tdcAt(t, 2.4, p)
	m := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading {
		slices.Reverse(l[6:])
		return l
	}))
	back := found[finding.LiftsRunBack](m.Findings)
	require.Len(t, back, 1)
	require.Equal(t, 5, back[0].Rows)
	require.InDelta(t, 251.5, back[0].Angle.Degrees(), 1e-9)
	require.Equal(t, back[0], m.NoEvidence)
	again := lobe.Measure(p, from, invented(func(l []lobe.Reading) []lobe.Reading {
		return slices.Concat(l[:4], l[1:4], l[4:], l[8:])
	}))
	require.Empty(t, found[finding.LiftsRunBack](again.Findings))
	require.NotNil(t, again.Events)
	require.Nil(t, again.NoEvidence)
}

// An opening flank of one reading has no slope, and so no middle between two flanks.
func TestLevelOfOneReading(t *testing.T) {
	p := evidence.DefaultProtractor()
	l := invented(func(l []lobe.Reading) []lobe.Reading { return slices.Concat(l[3:4], l[5:]) })
	l.Card.Lift = 4.5
	m := lobe.Measure(p, tdcAt(t, 2.4, p), l)
	require.IsType(t, finding.LiftNotStraddled{}, m.CannotTell)
	require.Empty(t, m.Levels)
}
