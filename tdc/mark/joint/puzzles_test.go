package joint_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
	"evendrop/tdc/mark/marktest"
)

// marks is shifts measured in crank degrees and known to half a degree: pin P,
// notch N, gap G, cam locks CI and CE, cam edges from the gap WI and WE.
func marks(t *testing.T, off map[string]float64) []mark.Mark {
	t.Helper()
	var list []mark.Mark
	for _, m := range []struct{ name, on, against string }{
		{"P", "flywheel", ""}, {"N", "pulley", ""}, {"G", "crank wheel", ""}, {"CI", "inlet cam", ""}, {"CE", "exhaust cam", ""},
		{"WI", "inlet wheel", "crank wheel"}, {"WE", "exhaust wheel", "crank wheel"},
	} {
		if value, has := off[m.name]; has {
			list = append(list, mark.Mark{
				Name: m.name, On: m.on, Against: m.against, Limit: 1 * geometry.Degree, HasLimit: true,
				Off: &mark.Shift{Value: value, Unit: mark.CrankDegrees, KnownTo: 0.5},
			})
		}
	}
	return list
}

// six is what the puzzles measure.
func six(p, n, ci, ce, wi, we float64) map[string]float64 {
	return map[string]float64{"P": p, "N": n, "CI": ci, "CE": ce, "WI": wi, "WE": we}
}

func explain(t *testing.T, setup evidence.Setup, drive mark.Drive, list []mark.Mark) joint.Diagnosis {
	t.Helper()
	findings, err := mark.Judge(setup, tdc.Result{}, drive, list)
	require.NoError(t, err)
	d, err := joint.Explain(setup, drive, findings, nil)
	require.NoError(t, err)
	return d
}

type named struct {
	joints []string
	by     float64
}

// Seven invented engines: what their marks show was worked out on paper from the
// fault beside each, with a tenth or two of noise.
func TestPuzzles(t *testing.T) {
	sprocket := []string{"drive on crank sprocket", "crank sprocket on crank"} // whole teeth first
	inletCam := []string{"drive to inlet sprocket", "inlet cam on inlet sprocket"}
	wheel := []string{"crank wheel on flywheel", "crank sensor"}
	for _, c := range []struct {
		name  string
		shown map[string]float64
		slips []named
		notes []string
	}{
		{"D1, a tooth", six(.1, .3, 17.9, 18.1, 18.2, 17.8), []named{{sprocket, 18}},
			[]string{"drive on crank sprocket 18.0: 1 tooth of 20 "}},
		{"D2, crank wheel", six(0, .2, -.2, .1, -11.9, -12.1), []named{{wheel, 12}},
			[]string{"crank wheel on flywheel 12.0: 2 pitch of 60 60-2"}},
		{"D3, a flywheel bolt", six(60.1, .1, .1, -.2, -59.8, -60.2), []named{{[]string{"flywheel on crank"}, 60}},
			[]string{"flywheel on crank 60.0: 1 hole of 6 "}},
		{"D4, damper or pointer", six(.1, 23, 0, .1, .1, 0), []named{{[]string{"pulley on crank", "N itself"}, 23}},
			[]string{"pulley on crank 23.0: [damper ring crept]"}},
		{"D5, the nominal counts from the throw", six(-2.5, -2.2, -2.4, -2.4, .1, 0), []named{{[]string{"TDC of cylinder 1"}, -2.4}},
			[]string{"TDC of cylinder 1 -2.4: offset 8"}},
		{"D6, inlet cam", six(.1, -.1, -20.5, .2, -20.2, .1), []named{{inletCam, -20.4}},
			[]string{"inlet cam on inlet sprocket -20.4: [phaser not locked]"}},
		{"D7, a tooth and the crank wheel", six(0, .1, 18.1, 17.8, 6.1, 5.9), []named{{wheel, 12}, {sprocket, 18}},
			[]string{"1 tooth of 20", "2 pitch of 60"}},
	} {
		d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, c.shown))
		require.NotEmpty(t, d.Explanations, c.name)
		require.Equal(t, len(c.slips), d.Tried, c.name)
		first := d.Explanations[0]
		for i, s := range c.slips {
			require.Equal(t, s.joints, first.Slips[i].Joints, c.name)
			// a tenth of noise on each of six marks, of which two to four bear on a slip
			require.InDelta(t, s.by, first.Slips[i].Angle.Degrees(), 0.2, c.name)
		}
		if len(c.slips) == 1 {
			require.Len(t, d.Explanations, 1, c.name)
		}
		var notes []string
		for _, s := range first.Slips {
			notes = append(notes, short(s.Notes)...)
		}
		for _, says := range c.notes {
			require.Contains(t, strings.Join(notes, "\n"), says, c.name)
		}
	}
}

// One belt goes round both cams: an inlet cam a tooth of 21 late, 17.1 deg, points to
// the belt on its sprocket, which is told first, as well as to the cam and its phaser;
// nothing points to the exhaust's.
func TestAToothOnOneCam(t *testing.T) {
	belt := marktest.TwoCams
	belt.CrankSprocket = 21
	late := marks(t, six(.1, .3, 17.1, .2, 17.2, -.1))
	s := explain(t, marktest.PetrolFour, belt, late).Explanations[0].Slips[0]
	require.Equal(t, []string{"drive to inlet sprocket", "inlet cam on inlet sprocket"}, s.Joints)
	tooth := s.Notes[0].(finding.WholeSteps)
	require.Equal(t, "drive to inlet sprocket", tooth.Name)
	require.Equal(t, finding.Steps{Step: finding.Tooth, InTurn: 21}, tooth.Steps)
	require.Equal(t, 1, tooth.Count)
	require.InDelta(t, 360.0/21, tooth.Each().Degrees(), 1e-9)
	belt.Layout = "two cams, inlet first"
	require.Equal(t, []string{"inlet cam on inlet sprocket"}, explain(t, marktest.PetrolFour, belt, late).Explanations[0].Slips[0].Joints)
	// what drives the inlet from the exhaust does not jump by the crank sprocket's teeth
	belt.Layout = "two cams, exhaust first"
	d := explain(t, marktest.PetrolFour, belt, late)
	require.Equal(t, []string{"drive to inlet sprocket", "inlet cam on inlet sprocket"}, d.Explanations[0].Slips[0].Joints)
	require.NotContains(t, notes(d), "tooth")
	// on a scope alone the belt is told first, and late, of what would be early
	d = explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, map[string]float64{"WI": 18, "WE": 18.2}))
	s = d.Explanations[0].Slips[0]
	require.Equal(t, "drive on crank sprocket", s.Joints[0])
	require.InDelta(t, 18.1, s.Angle.Degrees(), 0.01)
	require.Equal(t, []string{"flywheel on crank", "crank wheel on flywheel", "crank sensor"}, s.Opposite)
}

// Of explanations that fit nearly alike the one of whole teeth is told first: an
// exhaust that shows in its edge alone, 17.9 late, fits the wheel a little better
// than the belt, whose flats were measured roughly.
func TestWholeTeethFirst(t *testing.T) {
	list := marks(t, map[string]float64{"P": 0, "CE": 15, "WI": 0, "WE": 17.9})
	list[1].Off.KnownTo, list[1].Limit = 20, marktest.Deg(2)
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, list)
	require.Contains(t, d.Explanations[0].Slips[0].Joints, "drive to exhaust sprocket")
	list[1].Off.Value = 4 // 5.3 deg is nearer to that than the 17.9 of the belt
	d = explain(t, marktest.PetrolFour, marktest.TwoCams, list)
	require.Contains(t, d.Explanations[0].Slips[0].Joints, "drive to exhaust sprocket")
	require.Contains(t, d.Explanations[1].Slips[0].Joints, "exhaust wheel on exhaust cam")
	require.Less(t, d.Explanations[1].ChiSquare, d.Explanations[0].ChiSquare)
}

// Both cams late, the inlet by more: one slip leaves each of six marks 0.95 from
// nought of a limit of 1. So many so near the ends, 6*0.95^2*3 = 16, is past the
// 11.1 of 5 degrees of freedom: what takes two slips and fits follows, after it.
func TestWhereLimitsForgiveTooMuch(t *testing.T) {
	list := marks(t, six(.95, -.95, 3.95, 2.05, 3.95, 2.05))
	for i := range list {
		list[i].Off.KnownTo = 0.01
	}
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, list)
	require.Equal(t, 1, d.Tried)
	require.Equal(t, []string{"crank sprocket on crank", "drive on crank sprocket"}, d.Explanations[0].Slips[0].Joints)
	require.True(t, d.Explanations[0].ByLimits())
	likely, less, more := d.Ranked()
	require.Len(t, likely, 1)
	require.Empty(t, less)
	require.Equal(t, d.Explanations[1:], more)
	require.False(t, more[0].ByLimits())
	var two [][]string
	for _, e := range more {
		require.Len(t, e.Slips, 2)
		two = append(two, e.Slips[0].Joints, e.Slips[1].Joints)
	}
	require.Contains(t, two, []string{"drive to inlet sprocket", "inlet cam on inlet sprocket"})
}

// A flywheel 10 deg late explains all marks but for a notch 0.35 beyond its limit, which is
// known to 0.48: no mark is called outside then, so one slip suffices. It may be two all the
// same, and the pair that leaves every mark within its limit follows.
func TestAMarkLeftBeyondItsLimit(t *testing.T) {
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, six(10, 1.35, 0, .1, -10, -9.9)))
	require.Equal(t, 1, d.Tried)
	likely, _, more := d.Ranked()
	require.Len(t, likely, 1)
	require.Equal(t, []string{"flywheel on crank"}, likely[0].Slips[0].Joints)
	require.False(t, likely[0].ByLimits())
	require.Len(t, more, 1)
	require.Equal(t, []string{"pulley on crank", "N itself"}, more[0].Slips[1].Joints)
	d = explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, six(10, .9, 0, .1, -10, -9.9)))
	require.Len(t, d.Explanations, 1)
}

// D1 cannot be determined by any of its six marks; a look at either joint can, and so
// can a mark on the crank sprocket itself, where one of the two shows 18 deg.
func TestWhatTellsATooth(t *testing.T) {
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, six(.1, .3, 17.9, 18.1, 18.2, 17.8)))
	require.Len(t, d.TellApart, 2)
	for _, l := range d.TellApart {
		require.Equal(t, []string{"crank sprocket on crank", "drive on crank sprocket"}, l.Apart)
	}
	require.Equal(t, inspect.CountDrive, d.TellApart[0].How)
	require.True(t, d.TellApart[0].Teeth)
	require.False(t, d.TellApart[1].Teeth)
	require.Zero(t, d.TellApart[0].Separation)
	require.Equal(t, inspect.ReadAMark, d.TellApart[1].How)
	require.Equal(t, "crank sprocket", d.TellApart[1].Part)
	// 18 deg in standard uncertainties of 0.5/sqrt(3)
	require.InDelta(t, 18/(0.5/math.Sqrt(3)), d.TellApart[1].Separation, 0.5)
	require.Empty(t, explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, six(60.1, .1, .1, -.2, -59.8, -60.2))).TellApart)
}

// Of two slips a look names the joints that it is for, not those of the other slip. The
// tooth is counted before the rest, which goes by what has to come off.
func TestWhatTellsTwoSlips(t *testing.T) {
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, six(0, .1, 18.1, 17.8, 6.1, 5.9)))
	require.Len(t, d.TellApart, 3)
	require.Equal(t, inspect.CountDrive, d.TellApart[0].How)
	require.Equal(t, []string{"crank sprocket on crank", "drive on crank sprocket"}, d.TellApart[0].Apart)
	require.Equal(t, inspect.AtSensor, d.TellApart[1].How)
	require.Equal(t, "crank sensor", d.TellApart[1].Part)
	require.Equal(t, []string{"crank wheel on flywheel", "crank sensor"}, d.TellApart[1].Apart)
}

// A pin that alone was read may be off for any of three reasons: its boss is the
// cheapest to look at, and a notch on the pulley tells the other two.
func TestOnePinAlone(t *testing.T) {
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, map[string]float64{"P": 9}))
	require.Len(t, d.Explanations, 1)
	require.Equal(t, []string{"flywheel on crank", "P itself", "TDC of cylinder 1"}, d.Explanations[0].Slips[0].Joints)
	require.Zero(t, d.Explanations[0].DegreesOfFreedom)
	require.True(t, math.IsNaN(d.Explanations[0].P))
	require.Equal(t, inspect.AtItsSeat, d.TellApart[0].How)
	require.Equal(t, "P", d.TellApart[0].Part)
	require.Equal(t, d.Explanations[0].Slips[0].Joints, d.TellApart[0].Apart)
	var read []string
	for _, l := range d.TellApart {
		if l.How == inspect.ReadAMark {
			read = append(read, l.Part)
		}
	}
	require.Contains(t, read, "pulley")
	require.Contains(t, d.Unmeasured, "pulley on crank")
	require.NotContains(t, d.Unmeasured, "flywheel on crank")
}

// A scope alone cannot tell later cams from an earlier crank wheel: both are
// named, the one late, the other early.
func TestScopeAlone(t *testing.T) {
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, map[string]float64{"WI": 12, "WE": 12.2}))
	slip := d.Explanations[0].Slips[0]
	require.Contains(t, slip.Joints, "drive on crank sprocket")
	require.Contains(t, slip.Joints, "crank wheel on flywheel")
	opposite := slip.Angle > 0
	for _, j := range slip.Opposite {
		require.Equal(t, opposite, j != "drive on crank sprocket" && j != "crank sprocket on crank", j)
	}
	require.Len(t, slip.Opposite, map[bool]int{true: 3, false: 2}[opposite])
}

// A cam fitted half a turn out shows 180 cam degrees, which is a whole turn of
// the crank and no nought.
func TestCamHalfATurnOut(t *testing.T) {
	list := marks(t, six(0, .1, 0, .2, 0, .1))
	for i := range list {
		if list[i].Name == "CI" || list[i].Name == "WI" {
			list[i].Off = &mark.Shift{Value: 180.1, Unit: mark.CamDegrees, KnownTo: 0.25}
		}
	}
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, list)
	require.Len(t, d.Explanations, 1)
	slip := d.Explanations[0].Slips[0]
	require.Equal(t, []string{"drive to inlet sprocket", "inlet cam on inlet sprocket"}, slip.Joints)
	require.InDelta(t, 360, math.Abs(slip.Angle.Degrees()), 0.5)
	require.Equal(t, []string{"drive to inlet sprocket", "inlet cam on inlet sprocket"}, halfTurns(slip.Notes))
}

// Marks of the crank come round with it: a flywheel half a turn out shows 180 in
// one and -179.9 in the next.
func TestFlywheelHalfATurnOut(t *testing.T) {
	off := six(179.9, .1, .1, -.2, -179.8, -180.2)
	off["G"] = -179.9
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, off))
	require.Equal(t, []string{"flywheel on crank"}, d.Explanations[0].Slips[0].Joints)
	require.Len(t, d.Explanations, 1)
	holes := d.Explanations[0].Slips[0].Notes[0].(finding.WholeSteps)
	require.Equal(t, finding.Steps{Step: finding.BoltHole, InTurn: 6}, holes.Steps)
	require.Equal(t, 3, holes.Count)
}

// Inside the limits nothing is said to have moved, however well it is known.
func TestNothingMoved(t *testing.T) {
	list := marks(t, six(.6, .3, -.5, .1, .4, -.2))
	for i := range list {
		list[i].Off.KnownTo = 0.05
	}
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, list)
	require.Len(t, d.Explanations, 1)
	require.Empty(t, d.Explanations[0].Slips)
	require.Zero(t, d.Tried)
	// the pin is 0.6 late: made 1 early it would have moved by 1.6
	require.Greater(t, d.DetectionLimit.Degrees(), 1.5)
	require.Less(t, d.DetectionLimit.Degrees(), 1.65)
	for i := range list {
		list[i].Limit = 0.2 * geometry.Degree
	}
	require.NotZero(t, explain(t, marktest.PetrolFour, marktest.TwoCams, list).Tried)
}

// What three slips cannot explain is left unexplained.
func TestBeyondThreeSlips(t *testing.T) {
	d := explain(t, marktest.PetrolFour, marktest.TwoCams, marks(t, map[string]float64{"P": 11, "N": -23, "G": 31, "CI": -47, "CE": 71, "WI": 13, "WE": -29}))
	require.Empty(t, d.Explanations)
	require.Equal(t, 3, d.Tried)
	require.Empty(t, d.TellApart)
}

func TestNoMarks(t *testing.T) {
	d, err := joint.Explain(marktest.PetrolFour, marktest.TwoCams, nil, nil)
	require.NoError(t, err)
	require.Empty(t, d.Explanations)
}
