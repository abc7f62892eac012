package timing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/signal"
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
	for _, c := range []struct {
		inlet, exhaust float64
		says           string
	}{
		{0, 0, "No cam edge moved"},
		{18, 18, "All edges of all cams moved alike, by 18.0 ± 0.1 crank deg late (3.0 pitches of 60-2)"},
		{-12, -12, "by 12.0 ± 0.1 crank deg early (2.0 pitches of 60-2)"},
		{-45, -45, "All edges of all cams moved alike"},
		{18, 0, "One cam alone moved, column 3, by 18.0 ± 0.1 crank deg late"},
		{0, -18, "One cam alone moved, column 4, by 18.0 ± 0.1 crank deg early"},
		{0, 0.8, "One cam alone moved, column 4"},
		{18, 6, "Take each cam by itself: column 3 by 18.0 ± 0.1 crank deg late (3.0 pitches of 60-2); column 4 by 6.0"},
	} {
		now := moved(t, c.inlet, c.exhaust)
		got, err := compare.Compare(good, now)
		require.NoError(t, err)
		require.Contains(t, got.Finding, c.says)
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

// The uncertainty of a shift is that of two means by Welch's t: worked out by hand
// for deviations of 0.3 and 0.4 deg from 9 and 16 passings, sqrt(0.01 + 0.01) deg
// with 0.02^2/(0.01^2/8 + 0.01^2/15) = 20.87 degrees of freedom, t = 2.0804
// (from scipy.stats.t).
func TestShiftUncertainty(t *testing.T) {
	w, err := wheel.Parse("60-2")
	require.NoError(t, err)
	one := func(deg, deviation float64, count int) timing.Result {
		return timing.Result{Wheel: w, Period: 2 * geometry.Turn, RPMMin: 800, RPMMax: 800, Edges: []timing.Edge{{
			Channel: 3, Kind: signal.Rising, Angle: geometry.Angle(deg) * geometry.Degree,
			Deviation: geometry.Angle(deviation) * geometry.Degree, Count: count,
		}}}
	}
	c, err := compare.Compare(one(719.9, 0.3, 9), one(0.3, 0.4, 16))
	require.NoError(t, err)
	require.InDelta(t, 0.4, c.Shifts[0].Angle.Degrees(), 1e-9) // over the seam
	require.InDelta(t, math.Sqrt(0.02), c.Shifts[0].Uncertainty.Degrees(), 1e-9)
	require.InDelta(t, math.Sqrt(0.02)*2.0804, c.Shifts[0].Expanded.Degrees(), 1e-4) // t to four decimals
	require.Contains(t, c.Finding, "With one cam a capture cannot tell")

	c, err = compare.Compare(one(100, math.NaN(), 1), one(130, 0.4, 16))
	require.NoError(t, err)
	require.True(t, math.IsNaN(float64(c.Shifts[0].Uncertainty)))
	require.False(t, c.Shifts[0].Moved())
	require.Contains(t, c.Finding, "Too few turns")

	// a sample of 0.6 deg, rectangular, is the least that an edge scatters
	coarse := one(100, 0, 4)
	coarse.Step = 0.6 * geometry.Degree
	c, err = compare.Compare(coarse, one(100, 0.3, 9))
	require.NoError(t, err)
	require.InDelta(t, math.Sqrt(0.36/12/4+0.01), c.Shifts[0].Uncertainty.Degrees(), 1e-9)
}

// One edge moved among others points to its tooth, several unevenly to the wheel.
func TestUnevenShifts(t *testing.T) {
	good := moved(t, 0, 0)
	one, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.cams[0][1] += 3 }))
	require.NoError(t, err)
	require.Contains(t, one.Finding, "One edge alone moved, the falling one of column 3")
	two, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.cams[0][1] += 3; e.cams[0][2] += 7 }))
	require.NoError(t, err)
	require.Contains(t, two.Finding, "column 3 moved by different amounts")
}

// What makes captures unlike is said.
func TestUnlikeCaptures(t *testing.T) {
	good := moved(t, 0, 0)
	fast, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.rpm = 1500 }))
	require.NoError(t, err)
	require.Len(t, fast.Notes, 1)
	require.Contains(t, fast.Notes[0], "at different speeds (about 800")

	turned, err := compare.Compare(good, moved(t, 0, 0, func(e *engine) { e.reversed = true }))
	require.NoError(t, err)
	require.Len(t, turned.Notes, 1)
	require.Contains(t, turned.Notes[0], "rising edge in one capture and its falling edge")

	fewer := good
	fewer.Edges = good.Edges[1:]
	c, err := compare.Compare(good, fewer)
	require.NoError(t, err)
	require.Len(t, c.Shifts, 2)
	require.Len(t, c.Notes, 1)
	require.Contains(t, c.Notes[0], "Column 3 has 6 edges in one capture and 5")

	none := good
	none.Edges = nil
	_, err = compare.Compare(good, none)
	require.ErrorContains(t, err, "no cam edge is in both")
}
