package seen_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/seen"
	"evendrop/tdc/mark/marktest"
	"evendrop/tdc/slip"
)

// throw is a cylinder's, so many degrees late, known to 0.2 (a standard uncertainty).
func throw(late float64) mark.JudgedThrow {
	return mark.JudgedThrow{Throw: tdc.Throw{Estimate: gum.Estimate{Angle: marktest.Deg(late), Uncertainty: marktest.Deg(0.2), Expanded: marktest.Deg(0.4)}}}
}

// read is the piston read both ways and at its first place again: by so many degrees more
// before any other reading, or after all.
func read(t *testing.T, before, after float64) tdc.Result {
	t.Helper()
	s := marktest.Bench()
	list := marktest.Readings(s, 3, 0, marktest.Quiet)
	for _, r := range marktest.Readings(s, 3, 0, marktest.Quiet) {
		r.Turn = evidence.Backward
		list = append(list, r)
	}
	again := list[0]
	list[0].Angle += marktest.Deg(before)
	again.Angle += marktest.Deg(after)
	list = append(list, again)
	return marktest.Found(t, s, list)
}

// after is a pin and a notch that were read after so many readings.
func after(pin, notch int) []mark.Judged {
	return []mark.Judged{{Mark: mark.Mark{Name: "pin", On: "flywheel", Certain: true, After: &pin}}, {Mark: mark.Mark{Name: "notch", On: "pulley", Certain: true, After: &notch}}}
}

// left is what is left where both marks are late by so many degrees, known to 0.3.
func left(t *testing.T, w *seen.Witnesses, late float64) (names []string) {
	t.Helper()
	s, err := seen.Of(mark.Drive{}, after(0, 0), w)
	require.NoError(t, err)
	for _, g := range s.Groups {
		if s.Parts[g.Parts[0]].Name != seen.TDC {
			continue
		}
		for _, k := range s.Left(g, gum.Estimate{Angle: marktest.Deg(late), Uncertainty: marktest.Deg(0.3), Expanded: marktest.Deg(0.6)}) {
			names = append(names, s.Parts[g.Parts[k]].Name)
		}
	}
	return names
}

// The middle one of the other cylinders tells the first one's TDC from the protractor, where it
// is the one or the other. Sound throws lie within half a degree, or what is stated: it is known
// to the root of 0.2^2 + 0.5^2/3, 0.35 deg, and of the two together 1.96 times 0.46 is 0.90.
func TestOtherCylindersTell(t *testing.T) {
	setup, results := marktest.Bench(), []tdc.Result{{}}
	alone, neither := []string{seen.TDC}, []string{seen.TDC} // which then stands for both
	tight, wide := setup, setup
	tight.Engine.ThrowLimit, wide.Engine.ThrowLimit = marktest.Deg(0.1), marktest.Deg(2)
	for _, c := range []struct {
		name   string
		setup  evidence.Setup
		late   []float64
		marks  float64
		leaves []string
	}{
		{"in their places", setup, []float64{0.1, -0.1, 0.2}, 3, []string{seen.Protractor}},
		{"as late", setup, []float64{2.9, 3.1, 3.2}, 3, alone},
		{"as early", setup, []float64{-2.9}, -3, alone},
		{"one of them out", setup, []float64{3, 0.1, -0.1}, 3, []string{seen.Protractor}},
		{"neither", setup, []float64{45}, 3, neither},
		{"halfway", setup, []float64{1.5}, 3, neither},
		{"may be either", setup, []float64{0}, 0.85, neither},
		{"just not", setup, []float64{0}, 0.95, []string{seen.Protractor}},
		{"a tighter limit", tight, []float64{0}, 0.85, []string{seen.Protractor}},
		{"a wider limit", wide, []float64{0}, 2, neither},
	} {
		var throws []mark.JudgedThrow
		for _, late := range c.late {
			throws = append(throws, throw(late))
		}
		require.Equal(t, c.leaves, left(t, seen.Hear(c.setup, results, throws, nil), c.marks), c.name)
	}
	untold, moved := throw(0), throw(0)
	untold.CannotTell, moved.Moved = true, true
	first := mark.JudgedThrow{}
	require.Nil(t, seen.Hear(setup, results, []mark.JudgedThrow{first, untold, moved}, nil))
	require.Nil(t, seen.Hear(setup, []tdc.Result{{Earlier: results}}, []mark.JudgedThrow{throw(0)}, nil))
	require.Equal(t, alone, left(t, nil, 3), "nobody to be heard")
}

// A piston that was read before the marks and again after them, both ways, tells that the
// protractor did not move; an offset that nobody stated may still look like it, which makes
// marks early.
func TestPistonReadAgainTells(t *testing.T) {
	none, protractor := []string(nil), []string{seen.Protractor}
	still, all := read(t, 0, 0), 24
	oneWay := marktest.Found(t, marktest.Bench(), marktest.Readings(marktest.Bench(), 3, 0, marktest.Quiet))
	slipped := still
	slipped.Slip = &slip.Slip{}
	unsaid := after(all, all)
	unsaid[1].After = nil
	apart := after(all, 0)
	apart[1].After, apart[1].Off = nil, &mark.Shift{}
	for _, c := range []struct {
		name   string
		result tdc.Result
		marks  []mark.Judged
		late   float64
		leaves []string
	}{
		{"as before", still, after(all, all), 3, none},
		{"in between", still, after(2, all), 3, none},
		{"a mark that was not read on it", still, apart, 3, none},
		{"moved before the marks", read(t, 0, 3), after(all, all), 3, protractor},
		{"moved after the marks", read(t, 3, 0), after(1, 1), 3, protractor},
		{"by an offset", still, after(all, all), -3, protractor},
		{"not read again", still, after(all, all+1), 3, protractor},
		{"a row struck since", still, after(all, all+9), 3, protractor},
		{"not read before", still, after(0, all), 3, protractor},
		{"nobody said when", still, unsaid, 3, protractor},
		{"one way", oneWay, after(6, 6), 3, protractor},
		{"something moved", slipped, after(all, all), 3, protractor},
	} {
		w := seen.Hear(marktest.Bench(), []tdc.Result{c.result}, []mark.JudgedThrow{throw(0)}, c.marks)
		require.Equal(t, c.leaves, left(t, w, c.late), c.name)
	}
}
