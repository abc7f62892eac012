package mark_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
)

func shiftOf(name, on string, value, knownTo, limit float64) mark.Mark {
	return mark.Mark{
		Name: name, On: on, Off: &mark.Shift{Value: value, Unit: mark.CrankDegrees, KnownTo: knownTo}, Limit: marktest.Deg(limit), HasLimit: limit > 0,
	}
}

func changes(t *testing.T, before, after mark.Mark) (mark.Change, error) {
	t.Helper()
	judge := func(m mark.Mark) []mark.Judged {
		f, err := mark.Judge(marktest.Bench(), tdc.Result{}, marktest.TwoCams, []mark.Mark{m})
		require.NoError(t, err)
		return f
	}
	list, err := mark.Changes(judge(before), judge(after))
	if err != nil {
		return mark.Change{}, err
	}
	require.Len(t, list, 1)
	return list[0], nil
}

// Two half-widths of 0.3 make a triangle, of which 95 % lie within
// 0.6 (1 - sqrt(0.05)) = 0.466 (its area; one of the two counts as normal here,
// which is within 3 % of it). The change is held against that and the limit.
func TestChange(t *testing.T) {
	const half = 0.466
	for _, c := range []struct {
		before, after, limit float64
		want                 mark.ChangeVerdict
	}{
		{0, 0.9, 5, mark.Changed}, // even though within the limit: it did move
		{0, -0.5, 5, mark.Changed},
		{0.2, -0.2, 1, mark.Unchanged},
		{0, 0.4, 0.8, mark.ChangeUncertain}, // may be nought, or past the limit
		{0, 0.4, 0, mark.Unchanged},         // without a limit a degree
		{0, 0.45, 0.96, mark.Unchanged},
		{18, 0.1, 1, mark.Changed},
	} {
		got, err := changes(t, shiftOf("flats", "inlet cam", c.before, 0.3, 0), shiftOf("flats", "inlet cam", c.after, 0.3, c.limit))
		require.NoError(t, err)
		require.InDelta(t, c.after-c.before, got.Angle.Degrees(), 1e-9)
		require.InEpsilon(t, half, got.Expanded.Degrees(), 0.03)
		require.InEpsilon(t, 0.3*math.Sqrt(2.0/3), got.Uncertainty.Degrees(), 1e-9)
		require.Equal(t, c.want, got.Verdict, "%v", c)
	}
	got, err := changes(t, shiftOf("pin", "flywheel", 179.9, 0.3, 1), shiftOf("pin", "flywheel", -179.9, 0.3, 0))
	require.NoError(t, err)
	require.InDelta(t, 0.2, got.Angle.Degrees(), 1e-9)
	require.Equal(t, marktest.Deg(1), got.Within)
}

// The doubt in where a mark should be is the same before and after.
func TestNominalCancels(t *testing.T) {
	s := marktest.Bench()
	s.Engine.KnownTo.Offset = 8
	judge := func(top float64, m mark.Mark) []mark.Judged {
		f, err := mark.Judge(s, marktest.Found(t, s, marktest.Readings(s, top, 0, marktest.Quiet)), mark.Drive{}, []mark.Mark{m})
		require.NoError(t, err)
		return f
	}
	pin := mark.Mark{Name: "pin", On: "flywheel", Read: []geometry.Angle{marktest.Deg(5)}, Zero: mark.Throw}
	before := judge(3, pin)
	pin.Read = []geometry.Angle{marktest.Deg(358.5)}
	after := judge(358, pin)
	list, err := mark.Changes(before, after)
	require.NoError(t, err)
	require.InDelta(t, -1.5, list[0].Angle.Degrees(), 1e-4)
	require.Less(t, list[0].Expanded, before[0].Expanded/2)
	pin.ShouldBe = marktest.Deg(1)
	_, err = mark.Changes(before, judge(358, pin))
	require.ErrorContains(t, err, `mark "pin": it should be at 1 deg here and at 0 before: write the same should_be`)
}

func TestChangesRefuse(t *testing.T) {
	_, err := changes(t, shiftOf("lock", "inlet cam", 0, 0.3, 0), shiftOf("lock", "exhaust cam", 0, 0.3, 0))
	require.ErrorContains(t, err, `mark "lock": it is on the exhaust cam here and on the inlet cam there, before`)
	var of *mark.Error
	require.ErrorAs(t, err, &of)
}

// TDC's change is what the protractor shows of it, and both uncertainties.
func TestChangeOfTDC(t *testing.T) {
	s := marktest.Bench()
	before, after := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet)), marktest.Found(t, s, marktest.Readings(s, 359, 0, marktest.Quiet))
	c := mark.ChangeOfTDC(before, after)
	require.InDelta(t, -4, c.Angle.Degrees(), 1e-4)
	require.InEpsilon(t, math.Hypot(float64(before.TDC.Uncertainty), float64(after.TDC.Uncertainty)), float64(c.Uncertainty), 1e-9)
	require.Equal(t, mark.Changed, c.Verdict)
	require.Equal(t, mark.Unchanged, mark.ChangeOfTDC(before, before).Verdict)
}

// The limit that a change is held against is the later job's, and the earlier one's
// where the later gives none.
func TestChangeTakesTheLaterLimit(t *testing.T) {
	for _, c := range []struct{ before, after, want float64 }{{5, 2, 2}, {2, 5, 5}, {5, 0, 5}, {0, 0, 1}} {
		got, err := changes(t, shiftOf("flats", "inlet cam", 0, 0.3, c.before), shiftOf("flats", "inlet cam", 0, 0.3, c.after))
		require.NoError(t, err)
		require.Equal(t, marktest.Deg(c.want), got.Within)
	}
}
