package mark_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
	"evendrop/tdc/slip"
)

// Marks are judged by the TDC that held when they were read: one read before the
// protractor moved, or nobody said when, has to be read again; a shift, and a mark of a
// session in which only the gauge moved, need not.
func TestReadAgain(t *testing.T) {
	s := marktest.Bench()
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	at := func(after int) *int { return &after }
	read := []geometry.Angle{marktest.Deg(3)}
	list := []mark.Mark{
		{Name: "since", On: "flywheel", Read: read, After: at(6)},
		{Name: "before", On: "flywheel", Read: read, After: at(5)},
		{Name: "nobody said", On: "pulley", Read: read},
		{Name: "shift", On: "inlet cam", Off: &mark.Shift{Value: 4, Unit: mark.CrankDegrees, KnownTo: 0.5}},
	}
	for _, c := range []struct {
		slip   *slip.Slip
		judged []string
	}{
		{nil, []string{"since", "before", "nobody said", "shift"}},
		{&slip.Slip{Kind: slip.GaugeZero, After: 6}, []string{"since", "before", "nobody said", "shift"}},
		{&slip.Slip{Kind: slip.Turn, After: 6}, []string{"since", "before", "nobody said", "shift"}},
		{&slip.Slip{Kind: slip.Protractor, After: 6}, []string{"since", "shift"}},
	} {
		result.Slip = c.slip
		judged, err := mark.Judge(s, result, mark.Drive{Layout: "two cams"}, list)
		require.NoError(t, err)
		var names []string
		for _, m := range judged {
			names = append(names, m.Name)
		}
		require.Equal(t, c.judged, names)
		again := mark.Again(result, list)
		require.Len(t, again, len(list)-len(names))
		if len(again) > 0 {
			require.Equal(t, finding.ReadBeforeMove{Mark: finding.Mark{Name: "before"}, After: 6, Said: true}, again[0])
			require.Equal(t, finding.ReadBeforeMove{Mark: finding.Mark{Name: "nobody said"}, After: 6}, again[1])
		}
	}
	_, err := mark.Judge(s, result, mark.Drive{Layout: "two cams"}, append(list[1:3:3], mark.Mark{Name: "lost", On: "moon", Read: read, After: at(9)}))
	var of *mark.Error
	require.ErrorAs(t, err, &of, "what is wrong is still found at its place")
}

// A throw is not judged across a move of the protractor.
func TestThrowsAcrossAMove(t *testing.T) {
	s := marktest.Bench()
	s.Engine.ThrowLimit = marktest.Deg(2)
	first := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	second := first
	throws := []tdc.Throw{{Cylinder: 1}, {Cylinder: 2}}
	throws[1].Expanded = marktest.Deg(0.3)
	verdict := func() mark.JudgedThrow { return mark.JudgeThrows(s.Engine, []tdc.Result{first, second}, throws)[1] }
	require.Equal(t, mark.Within, verdict().Verdict)
	first.Slip = &slip.Slip{Kind: slip.Protractor, After: 4}
	require.Equal(t, mark.Within, verdict().Verdict, "the first one's TDC is that of its end")
	second.Slip = first.Slip
	require.Equal(t, mark.NoLimitSaid, verdict().Verdict)
	require.True(t, verdict().Moved)
}
