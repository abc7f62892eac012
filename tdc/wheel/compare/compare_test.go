package compare_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/timing"
)

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
	require.IsType(t, finding.OnlyCamMoved{}, c.Finding)
	require.InDelta(t, math.Sqrt(0.02)*2.0804, c.Finding.(finding.OnlyCamMoved).Expanded.Degrees(), 1e-4)

	c, err = compare.Compare(one(100, math.NaN(), 1), one(130, 0.4, 16))
	require.NoError(t, err)
	require.True(t, math.IsNaN(float64(c.Shifts[0].Uncertainty)))
	require.False(t, c.Shifts[0].Moved())
	require.Equal(t, finding.ShiftsUnsure{}, c.Finding)

	// a sample of 0.6 deg, rectangular, is the least that an edge scatters
	coarse := one(100, 0, 4)
	coarse.Step = 0.6 * geometry.Degree
	c, err = compare.Compare(coarse, one(100, 0.3, 9))
	require.NoError(t, err)
	require.InDelta(t, math.Sqrt(0.36/12/4+0.01), c.Shifts[0].Uncertainty.Degrees(), 1e-9)
}

// twoCams is a result by hand: two edges of each of two cams, late by so many deg,
// seen ten times to 0.1 deg. Simulated captures are compared in tdc/wheel/timing.
func twoCams(t *testing.T, late ...float64) timing.Result {
	t.Helper()
	w, err := wheel.Parse("60-2")
	require.NoError(t, err)
	r := timing.Result{Wheel: w, Period: 2 * geometry.Turn, RPMMin: 800, RPMMax: 800}
	for i, at := range []float64{100, 200, 400, 550} {
		r.Edges = append(r.Edges, timing.Edge{
			Channel: 3 + i/2, Kind: []signal.Way{signal.Rising, signal.Falling}[i%2], Angle: geometry.Angle(at+late[i]) * geometry.Degree,
			Deviation: geometry.Degree / 10, Count: 10,
		})
	}
	return r
}

// What the shifts point to, as in the table of single faults: all alike is what all
// share, one cam is that cam, one edge its tooth.
func TestWhatShiftsPointTo(t *testing.T) {
	for _, c := range []struct {
		late []float64
		kind finding.Finding
	}{
		{[]float64{0, 0, 0, 0}, finding.NoEdgeMoved{}},
		{[]float64{6, 6, 6, 6}, finding.AllCamsMoved{}},
		{[]float64{6, 6, 0, 0}, finding.OneCamMoved{}},
		{[]float64{0, 6, 0, 0}, finding.OneEdgeMoved{}},
		{[]float64{3, 9, 0, 0}, finding.CamUneven{}},
		{[]float64{6, 6, -6, -6}, finding.CamsApart{}},
		{[]float64{2, 9, -6, -6}, finding.CamsApart{}},
	} {
		got, err := compare.Compare(twoCams(t, 0, 0, 0, 0), twoCams(t, c.late...))
		require.NoError(t, err)
		require.IsType(t, c.kind, got.Finding, c.late)
		require.Empty(t, got.Notes)
		require.Equal(t, map[bool]finding.Cure{true: finding.None, false: finding.LookAtEngine}[c.late[1] == 0], got.Finding.Cure())
	}
	got, err := compare.Compare(twoCams(t, 0, 0, 0, 0), twoCams(t, 2, 9, -6, -6))
	require.NoError(t, err)
	cams := got.Finding.(finding.CamsApart).Cams
	require.Nil(t, cams[0].Move)
	require.InDelta(t, -6, cams[1].Move.Off.Degrees(), 1e-9)
	require.InDelta(t, 1, cams[1].Move.Pitches, 1e-9) // of 6 deg
}

// Captures of other wheels, or with no cam in common, are refused, with what to say.
func TestNotCompared(t *testing.T) {
	one, other := twoCams(t, 0, 0, 0, 0), twoCams(t, 0, 0, 0, 0)
	other.Edges = nil
	_, err := compare.Compare(one, other)
	require.ErrorContains(t, err, "no cam edge is in both captures")
	other = twoCams(t, 0, 0, 0, 0)
	other.Wheel, err = wheel.Parse("36-1")
	require.NoError(t, err)
	_, err = compare.Compare(one, other)
	require.ErrorContains(t, err, "the crank wheel is 60-2 in one capture and 36-1 in the other")
}
