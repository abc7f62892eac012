package timing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/timing"
)

// moved is the two-cam engine with its cams moved, deg late.
func moved(t *testing.T, inlet, exhaust float64, change ...func(*engine)) timing.Result {
	t.Helper()
	e := twoCams()
	e.noise = 0.02
	for i := range e.cams[0] {
		e.cams[0][i] += inlet
	}
	for i := range e.cams[1] {
		e.cams[1][i] += exhaust
	}
	for _, f := range change {
		f(&e)
	}
	r, err := measure(e.capture(twoCamTable()), "60-2", columns(2))
	require.NoError(t, err)
	require.Len(t, r.Edges, 8)
	return r
}

// What moved is said as in the table of single faults: both cams alike is the
// crank wheel's side or the common drive, one cam is that cam. A tooth of a drive
// of 20 teeth on the crank is 18 crank deg, three pitches of 60-2 (common
// practice, no source). 400 and 700 deg carry edges over the cycle's seams.
func TestShifts(t *testing.T) {
	good := moved(t, 0, 0)
	pitch := geometry.Turn / 60
	by := func(deg float64) finding.Move {
		off := geometry.Angle(deg) * geometry.Degree
		return finding.Move{Off: off, Pitches: math.Abs(float64(off / pitch)), Wheel: "60-2"}
	}
	each := func(inlet, exhaust float64) finding.CamsApart {
		a, b := by(inlet), by(exhaust)
		return finding.CamsApart{Cams: []finding.CamMove{{Column: 3, Move: &a}, {Column: 4, Move: &b}}}
	}
	for _, c := range []struct {
		inlet, exhaust float64
		says           finding.Finding
	}{
		{0, 0, finding.NoEdgeMoved{}},
		{18, 18, finding.AllCamsMoved{Move: by(18)}},
		{-12, -12, finding.AllCamsMoved{Move: by(-12)}},
		{-45, -45, finding.AllCamsMoved{Move: by(-45)}},
		{18, 0, finding.OneCamMoved{Column: 3, Move: by(18)}},
		{0, -18, finding.OneCamMoved{Column: 4, Move: by(-18)}},
		{0, 0.8, finding.OneCamMoved{Column: 4, Move: by(0.8)}},
		{18, 6, each(18, 6)},
	} {
		now := moved(t, c.inlet, c.exhaust)
		got, err := compare.Compare(good, now)
		require.NoError(t, err)
		requireMoves(t, c.says, got.Finding)
		require.Len(t, got.Shifts, 8)
		require.Empty(t, got.Notes)
		for _, s := range got.Shifts {
			want := map[int]float64{3: c.inlet, 4: c.exhaust}[s.Edge.Channel]
			require.InDelta(t, want, s.Angle.Degrees(), idleTolerance)
			require.Less(t, s.Expanded.Degrees(), 0.2)
			require.Equal(t, want != 0, s.Moved())
		}
	}
}

// One edge moved among others points to its tooth, several unevenly to the wheel.
func TestUnevenShifts(t *testing.T) {
	good := moved(t, 0, 0)
	one, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.cams[0][1] += 3 }))
	require.NoError(t, err)
	require.IsType(t, finding.OneEdgeMoved{}, one.Finding)
	edge := one.Finding.(finding.OneEdgeMoved)
	require.Equal(t, 3, edge.Column)
	require.Equal(t, "falling", edge.Edge)
	two, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.cams[0][1] += 3; e.cams[0][2] += 7 }))
	require.NoError(t, err)
	require.Equal(t, finding.CamUneven{Column: 3}, two.Finding)
}

// What makes captures unlike is said.
func TestUnlikeCaptures(t *testing.T) {
	good := moved(t, 0, 0)
	fast, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.rpm = 1500 }))
	require.NoError(t, err)
	require.Len(t, fast.Notes, 1)
	speeds := noted[finding.SpeedsDiffer](t, fast.Notes)
	require.InDelta(t, 800, speeds.Before, 3) // as TestEveryTable holds a speed
	require.InDelta(t, 1500, speeds.After, 6)

	turned, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.reversed = true }))
	require.NoError(t, err)
	require.Equal(t, []finding.Finding{finding.LeadsDiffer{Before: "rising", After: "falling"}}, turned.Notes)

	fewer := good
	fewer.Edges = good.Edges[1:]
	c, err := compare.Compare(good, fewer)
	require.NoError(t, err)
	require.Len(t, c.Shifts, 2)
	require.Equal(t, []finding.Finding{finding.EdgeCountsDiffer{Column: 3, Before: 6, After: 5}}, c.Notes)

	none := good
	none.Edges = nil
	_, err = compare.Compare(good, none)
	require.ErrorContains(t, err, "no cam edge is in both")
}

// requireMoves holds a finding against one, its moves to what an edge is timed to.
func requireMoves(t *testing.T, want, got finding.Finding) {
	t.Helper()
	require.IsType(t, want, got)
	within := func(want, got finding.Move) {
		require.InDelta(t, want.Off.Degrees(), got.Off.Degrees(), idleTolerance)
		require.InDelta(t, want.Pitches, got.Pitches, idleTolerance/6)
		require.Equal(t, want.Wheel, got.Wheel)
		require.Less(t, got.Expanded.Degrees(), 0.2)
	}
	switch want := want.(type) {
	case finding.AllCamsMoved:
		within(want.Move, got.(finding.AllCamsMoved).Move)
	case finding.OneCamMoved:
		require.Equal(t, want.Column, got.(finding.OneCamMoved).Column)
		within(want.Move, got.(finding.OneCamMoved).Move)
	case finding.CamsApart:
		require.Len(t, got.(finding.CamsApart).Cams, len(want.Cams))
		for i, cam := range got.(finding.CamsApart).Cams {
			require.Equal(t, want.Cams[i].Column, cam.Column)
			within(*want.Cams[i].Move, *cam.Move)
		}
	default:
		require.Equal(t, want, got)
	}
}
