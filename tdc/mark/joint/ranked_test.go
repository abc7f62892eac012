package joint_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
	"evendrop/tdc/mark/marktest"
)

// An explanation's joints, which of them would have moved the other way, and its
// interval. Each mark is known to 0.5 and made within 1, 0.65 together ((0.5^2 + 1)/3,
// its root): three of them make 1.96*0.65/sqrt(3) = 0.7, two 0.9, and one, less wide in
// the tails than a normal, 1.2.
func TestExplanation(t *testing.T) {
	for _, c := range []struct {
		shown            map[string]float64
		joints, opposite []string
		off, expanded    float64
	}{
		{six(60.1, .1, .1, -.2, -59.8, -60.2), []string{"flywheel on crank"}, nil, 60, 0.7},
		{six(.1, 23, 0, .1, .1, 0), []string{"pulley on crank", "N itself"}, nil, 23, 1.2},
		{map[string]float64{"WI": 12, "WE": 12.2}, []string{"drive on crank sprocket", "crank sensor"}, []string{"drive on crank sprocket"}, -12.1, 0.9},
	} {
		s := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, c.shown)).Explanations[0].Slips[0].Finding()
		require.Subset(t, s.Joints, c.joints)
		require.Subset(t, s.Opposite, c.opposite)
		require.InDelta(t, c.off, s.Off.Degrees(), 0.05)
		require.InDelta(t, c.expanded, s.Expanded.Degrees(), 0.05)
	}
}

// short writes notes so that a test can name them.
func short(notes []finding.Finding) (out []string) {
	for _, n := range notes {
		of := func(j finding.Joint) string { return fmt.Sprintf("%s %.1f: ", j.Name, j.Off.Degrees()) }
		switch f := n.(type) {
		case finding.WholeSteps:
			out = append(out, of(f.Joint)+fmt.Sprintf("%d %s of %d %s", f.Count, f.Step, f.InTurn, f.Wheel))
		case finding.NoWholeSteps:
			out = append(out, of(f.Joint)+fmt.Sprintf("no %s of %d", f.Step, f.InTurn))
		case finding.TDCByOffset:
			out = append(out, of(f.Joint)+fmt.Sprintf("offset %.0f", f.Offset.Millimetres()))
		case finding.UsualSize:
			out = append(out, of(f.Joint)+fmt.Sprint(f.Causes))
		default:
			out = append(out, n.Kind())
		}
	}
	return out
}

// halfTurns is the joints of which a note says that half a turn of a cam it is.
func halfTurns(notes []finding.Finding) (joints []string) {
	for _, n := range notes {
		if f, is := n.(finding.HalfCamTurn); is {
			joints = append(joints, f.Name)
		}
	}
	return joints
}

// notes is what is said of the sizes of the first explanation's slips.
func notes(d joint.Diagnosis) string {
	var all []string
	for _, s := range d.Explanations[0].Slips {
		all = append(all, short(s.Notes)...)
	}
	return strings.Join(all, " ")
}

// Sizes: what a chain wears by is late; what is no tooth is said to be none; and
// where whole teeth are finer than the marks, nothing is said of them.
func TestSizes(t *testing.T) {
	late, early := six(0, 0, 5, 5.1, 4.9, 5), six(0, 0, -5, -5.1, -4.9, -5)
	require.Contains(t, notes(explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, late))), "5.0: [worn drive]")
	require.Contains(t, notes(explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, late))), "5.0: no tooth of 20")
	require.NotContains(t, notes(explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, early))), "worn drive")
	small := marks(t, six(0, 0, .8, .8, .8, .8))
	for i := range small {
		small[i].Limit, small[i].Off.KnownTo = marktest.Deg(0.3), 0.1
	}
	require.Contains(t, notes(explain(t, marktest.PetrolFour, marktest.TwoCams, small)), "0.8: no tooth of 20")
	rough := marks(t, six(0, 0, 0, 0, -12, -12))
	for i := range rough {
		rough[i].Off.KnownTo = 6
	}
	require.NotContains(t, notes(explain(t, marktest.PetrolFour, marktest.TwoCams, rough)), "pitch")
	// On a scope alone the cams' lateness is the crank wheel's earliness.
	scope := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, map[string]float64{"WI": 5, "WE": 5.2}))
	require.Contains(t, notes(scope), "drive on crank sprocket 5.1: [worn drive]")
}

// Explanations that fit alike: the smaller slips come first. Pin 2 late, gap 20
// late: the flywheel by 2 and the crank wheel by 18 on it, before the crank wheel
// by 20 and the pin's boss by 2, before the flywheel by 20 and the boss 18 early.
func TestSmallerSlipsFirst(t *testing.T) {
	off := six(2, 0, 0, 0, -20, -20)
	off["G"] = 20
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, off))
	require.Len(t, d.Explanations, 3)
	for i, want := range []float64{2 + 18, 20 + 2, 20 + 18} {
		e := d.Explanations[i]
		require.Len(t, e.Slips, 2)
		require.InDelta(t, d.Explanations[0].ChiSquare, e.ChiSquare, 1e-6)
		require.InDelta(t, want, math.Abs(e.Slips[0].Angle.Degrees())+math.Abs(e.Slips[1].Angle.Degrees()), 0.1)
	}
}

// What is behind a cover is read last.
func TestOutsideIsReadFirst(t *testing.T) {
	drive := mark.Drive{Joints: []mark.Joint{
		{Carried: "crank sprocket", Carrier: "crank"}, {Carried: "flywheel", Carrier: "crank"}, {Carried: "pulley", Carrier: "crank"},
	}}
	var read []string
	for _, l := range explain(t, marktest.PetrolFour, drive, marks(t, map[string]float64{"P": 9})).TellApart {
		if l.How == inspect.ReadAMark {
			read = append(read, l.Part)
		}
	}
	require.Contains(t, read, "pulley")
	require.NotContains(t, read, "crank sprocket")
}

// A reading is named as telling only where its answers lie three standard
// uncertainties apart: of half a degree, known to 0.29 each, none do.
func TestAReadingTellsFromThree(t *testing.T) {
	list := marks(t, six(.6, 0, 0, 0, -.6, -.6))
	for i := range list {
		list[i].HasLimit = false
	}
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, list)
	require.Greater(t, len(d.Explanations), 1)
	require.NotEmpty(t, d.TellApart)
	for _, l := range d.TellApart {
		if l.Separation != 0 { // of a look there is none
			require.GreaterOrEqual(t, l.Separation, 3.0, "%s %s", l.How, l.Part)
		}
	}
}
