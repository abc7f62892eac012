package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

func deg(d float64) geometry.Angle { return geometry.Angle(d) * geometry.Degree }

// toldOfMarks is findings of marks and of joints, at least one of every kind, in words.
var toldOfMarks = []struct {
	finding finding.Finding
	words   string
}{
	{finding.ReadingsApart{Mark: pin, Apart: deg(2)}, "The readings lie 2.0 deg apart: read again. A decimal is written with a point, as in [3.5, 3.5]."},
	{finding.SetsApart{Mark: pin, Set: 2, By: deg(-1.5), Limit: deg(0.614)}, "Set 2 has it 1.50 deg earlier than all its sets together, and up to 0.61 could be chance. " +
		"Check what was read, and in which set. Until then it is known no better than the sets agree."},
	{finding.FarOff{Mark: pin, Off: deg(-80)}, "Off by -80.0 deg: first check what was read and typed, and should_be."},
	{finding.LobeFarOff{Mark: pin, Off: deg(-110)}, "Off by -110.0 deg, farther than a drive slips. First check that the gauge stood on this valve: the exhaust lobe may have been read as the inlet, or the other way. " +
		"Then check that the card is this cam's, and counts from the TDC between the two valves, not from the one 360 deg away. Last check that TDC is this cylinder's."},
	{finding.KnownToAssumed{Mark: pin, KnownTo: deg(0.5)}, "known_to is not stated: taken as 0.5 deg of crank."},
	{finding.ShouldBeAssumed{Mark: pin}, `should_be is not stated: compared with the piston's TDC, 0. State it, or should_be = "unknown" where nobody knows.`},
	{finding.ShouldBeAssumed{Mark: pin, FromThrow: true}, `should_be is not stated: compared with the throw along the bore, 0. State it, or should_be = "unknown" where nobody knows.`},
	{finding.ReadBeforeMove{Mark: pin, After: 13}, "It is not judged: the protractor moved after reading 13, and nobody said whether it was read since. Read it again, and state after_reading, the number of readings taken before it."},
	{finding.ReadBeforeMove{Mark: pin, After: 13, Said: true}, "It is not judged: the protractor moved after reading 13, and it was read before. Read it again, and state after_reading, the number of readings taken before it."},
	{finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: "pin", Off: deg(-2.4)}}, Offset: 8},
		"Off by -2.4 deg, the difference that an offset of 8 mm makes between the piston's TDC and the throw lying along the bore. Ask which of them the given angle counts from."},
	{finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: "pin", Off: deg(2.4)}, {Mark: "notch", Off: deg(2.3)}}, Offset: 8.25, Stated: true},
		"pin (+2.4 deg) and notch (+2.3 deg): off by the difference that the engine's offset of 8.25 mm makes between the piston's TDC and the throw lying along the bore. " +
			"Ask which of them the given angles count from."},
	{finding.OnItsLimit{Mark: pin}, "On the limit: no reading would settle it."},
	{finding.MoreReadings{Mark: pin, OfMark: 3}, "3 more readings of the mark would settle it, if it stays where it is."},
	{finding.MoreReadings{Mark: pin, OfPiston: 1}, "One more reading of the piston each side of TDC would settle it, if it stays where it is."},
	{finding.MoreReadings{Mark: pin, OfMark: 2, OfPiston: 2}, "2 more readings of the mark, and as many of the piston each side of TDC, would settle it, if it stays where it is."},
	{finding.NotByReadings{Mark: pin, Needed: deg(0.123), Doubt: finding.DoubtProtractor},
		"More readings like these would not settle it: that takes ± 0.12 deg, and most of the doubt is in the protractor's own error and step. A finer protractor would help."},
	{finding.NotByReadings{Mark: pin, Needed: deg(0.1), Doubt: finding.DoubtProtractor, Set: 2, MoveWheel: true},
		"More readings like these would not settle it: that takes ± 0.1 deg, and most of the doubt is in the protractor's own error and step. " +
			"A finer protractor, or this one moved on the crank and mark and piston read again as set 2, would help."},
	{finding.NotByReadings{Mark: pin, Needed: deg(0.1), Doubt: finding.DoubtProtractor, Set: 2},
		"More readings like these would not settle it: that takes ± 0.1 deg, and most of the doubt is in the protractor's own error and step. " +
			"A finer protractor, or the mark read in set 2 as well, would help."},
	{finding.NotByReadings{Mark: pin, Needed: deg(0.1), Doubt: finding.DoubtTDC, Source: "lash"},
		"More readings like these would not settle it: that takes ± 0.1 deg, and most of the doubt is in TDC: lash. What makes TDC surer would help."},
	{finding.NotByReadings{Mark: pin, Needed: deg(0.1), Doubt: finding.DoubtNominal},
		"More readings like these would not settle it: that takes ± 0.1 deg, and most of the doubt is in where it should be. A given angle that is better known would help."},
	{finding.NotByReadings{Mark: pin, Needed: deg(0.1), Doubt: finding.DoubtHealthy},
		"More readings like these would not settle it: that takes ± 0.1 deg, and most of the doubt is in where it should be. More healthy engines, kept together, would help."},
	{finding.MeasuredBetter{Mark: pin, KnownTo: deg(0.1399)}, "Measuring to ± 0.13 crank deg or better would settle it, if it stays where it is."}, // never rounded up
	{finding.NoMeasurement{Mark: pin}, "A better measurement would not settle it: where it should be is not known well enough."},

	{finding.WholeSteps{Joint: belt(18), Count: 1, Steps: finding.Steps{Step: finding.Tooth, InTurn: 20}}, "belt: 18.0 deg agrees with one tooth of the 20-tooth crank sprocket, 18.0 deg."},
	{finding.WholeSteps{Joint: belt(-35.2), Count: 2, Steps: finding.Steps{Step: finding.Tooth, InTurn: 20}}, "belt: 35.2 deg agrees with 2 teeth of the 20-tooth crank sprocket, 36.0 deg."},
	{finding.WholeSteps{Joint: belt(180), Count: 3, Steps: finding.Steps{Step: finding.BoltHole, InTurn: 6}}, "belt: 180.0 deg agrees with 3 holes of 6 flywheel bolts, 180.0 deg."},
	{finding.WholeSteps{Joint: belt(12), Count: 2, Steps: finding.Steps{Step: finding.Pitch, InTurn: 60, Wheel: "60-2"}}, "belt: 12.0 deg agrees with 2 pitches of the 60-2 wheel, 12.0 deg."},
	{finding.NoWholeSteps{Joint: belt(-9), Steps: finding.Steps{Step: finding.Tooth, InTurn: 20}}, "belt: 9.0 deg is not a whole number; one tooth of the 20-tooth crank sprocket would be 18.0 deg."},
	{finding.LobeItself{Joint: finding.Joint{Name: "inlet lobe itself", Off: deg(3)}}, "inlet lobe itself is the lobe or its follower, beside the cam that carries it."},
	{finding.HalfCamTurn{Joint: belt(360)}, "belt: 360 deg of crank is half a turn of the cam: it was fitted half a turn out, or TDC was taken a whole turn away."},
	{finding.UsualSize{Joint: belt(5), Causes: []finding.Cause{finding.WornDrive, finding.WornKey}}, "belt: 5.0 deg late is a usual size for a worn chain, belt or guide, or a worn key."},
	{finding.UsualSize{Joint: belt(-5), Causes: []finding.Cause{finding.FrictionHeld, finding.FreePhaser, finding.BentPart, finding.CreptDamper}},
		"belt: 5.0 deg early is a usual size for a sprocket held by friction alone, or a phaser that is not locked, or a sprocket that was not held, " +
			"or a bent pointer, pin boss or bracket, or a wrong part, or a damper's ring that has crept on its rubber."},
	{finding.UsualSize{Joint: belt(-2), Causes: []finding.Cause{finding.MistakenTDC}},
		"belt: 2.0 deg early is a usual size for lash where the piston was read one way only, an off-centre or slipped protractor, or a given angle that counts from elsewhere: " +
			"rule these out before you suspect the crank."},
	{finding.UsualSize{Joint: belt(3), Causes: []finding.Cause{finding.MovedScale}},
		"belt: 3.0 deg late is a usual size for one that moved after the pistons were read, lash where the pistons were read one way only, or a given angle that counts from elsewhere: " +
			"the other cylinders' TDCs lie where cylinder 1's has them."},
	{finding.TDCByOffset{Joint: belt(-2.4), Offset: 8.1}, "belt: 2.4 deg early, the difference that an offset of 8 mm makes between the piston's TDC and the throw lying along the bore. " +
		"Ask which of them the given angles count from."},
	{finding.EdgesApart{Mark: "edge 2", Wheel: "inlet wheel", Edges: 3, By: deg(-8)},
		"On the inlet wheel, edge 2 lies 8.0 deg earlier than the middle one of the 3 edges, and no joint moves one edge alone. Check which edge was meant, should_be, and its tooth."},
	{finding.EdgesApart{Mark: "edge 2", Wheel: "inlet wheel", Edges: 2, By: deg(8)},
		"On the inlet wheel, edge 2 lies 8.0 deg later than the other edge, and no joint moves one edge alone. Check which edge was meant, should_be, and its tooth."},
	{finding.WornLong{Nearer: "inlet sprocket", Farther: "exhaust sprocket", Told: true, Late: deg(4), LateExpanded: deg(1.2), More: deg(2), MoreExpanded: deg(1.3), Beyond: true},
		"The inlet sprocket is 4.0 ± 1.2 deg late, and the exhaust sprocket 2.0 ± 1.3 deg more; neither is whole teeth. That points to a belt or chain worn long: " +
			"it holds every cam back, the farther one along it more. Measure its length, and look at its tensioner and guides, before you suspect a sprocket or a cam."},
	{finding.WornLong{Nearer: "inlet sprocket", Farther: "exhaust sprocket", Late: deg(4), LateExpanded: deg(1.2), More: deg(1), MoreExpanded: deg(1.3)},
		"The inlet sprocket is 4.0 ± 1.2 deg late, and the exhaust sprocket 1.0 ± 1.3 deg more; neither is whole teeth. Marks made within their limits may show as much, but this may be a belt or chain worn long: " +
			"it holds every cam back, the farther one along it more. The exhaust sprocket should then be the farther from the crank along the side that pulls. " +
			"Measure its length, and look at its tensioner and guides, before you suspect a sprocket or a cam."},
	{finding.SlipBack{Before: tooth, Now: finding.Unexplained, Tried: 3}, pointed + "no 3 slips explain them, so they do not show whether that slip is gone."},
	{finding.SlipBack{Before: tooth, Now: finding.NothingMoved, Within: &within}, pointed + "no joint has to have moved to explain them: that slip is gone, to within 0.7 deg (95 %)."}, // never rounded down
	{finding.SlipBack{Before: tooth, Now: finding.NothingMoved}, pointed + "no joint has to have moved to explain them: as far as they show, that slip is gone."},
	{finding.SlipBack{Before: tooth, Now: finding.NotBack, After: &tooth}, pointed + "they still point to it, 18.0 ± 0.6 deg early: that slip is still there."},
	{finding.SlipBack{Before: tooth, Now: finding.MaybeBack}, pointed + "they cannot tell that from others: that slip may still be there."},
	{finding.SlipBack{Before: tooth, Now: finding.Elsewhere}, pointed + "they no longer do: as far as they show, that slip is gone."},
}

const pointed = "Before, the marks pointed to belt or sprocket (late), 18.0 ± 0.6 deg early. Now "

var (
	pin    = finding.Mark{Name: "pin"}
	tooth  = finding.Slip{Joints: []string{"belt", "sprocket"}, Opposite: []string{"sprocket"}, Off: deg(-18), Expanded: deg(0.6)}
	within = deg(0.61)
)

func belt(off float64) finding.Joint { return finding.Joint{Name: "belt", Off: deg(off)} }

// Every kind of finding of marks and joints has its sentence.
func TestMarksAndJointsInWords(t *testing.T) {
	worded := map[string]bool{}
	for _, c := range toldOfMarks {
		require.Equal(t, c.words, words.Bench{}.Finding(c.finding))
		worded[c.finding.Kind()] = true
	}
	kind := regexp.MustCompile(`Kind\(\) string \{ return "(.*)" \}`)
	kinds := 0
	for _, file := range []string{"marks.go", "joints.go"} {
		text, err := os.ReadFile(filepath.Join("..", "..", "..", "tdc", "finding", file))
		require.NoError(t, err)
		for _, m := range kind.FindAllStringSubmatch(string(text), -1) {
			require.True(t, worded[m[1]], "%q is not worded here", m[1])
			kinds++
		}
	}
	require.Equal(t, kinds, len(worded))
}

// An inch job reads inches.
func TestOffsetInInches(t *testing.T) {
	inches := words.Bench{Inches: true}
	o := finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: "pin", Off: deg(2)}}, Offset: 8}
	require.Contains(t, inches.Finding(o), "an offset of 0.31 in makes")
	o.Stated = true
	require.Contains(t, inches.Finding(o), "the engine's offset of 0.315 in makes")
}

// What stands by itself names its mark; what is of several names them itself.
func TestNamed(t *testing.T) {
	require.Equal(t, "pin: On the limit: no reading would settle it.", words.Bench{}.Named(finding.OnItsLimit{Mark: pin}))
	require.Contains(t, words.Bench{}.Named(finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: "pin"}}}), "pin: Off by 0.0 deg")
	require.Regexp(t, `^pin \(0.0 deg\) and notch`, words.Bench{}.Named(finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: "pin"}, {Mark: "notch"}}}))
}

// A mark in one line, whatever it is called, one thing or several.
func TestMarkInWords(t *testing.T) {
	m := mark.Judged{Mark: mark.Mark{Name: "inlet cam bolt holes", Limit: deg(1), HasLimit: true}, Position: deg(4)}
	m.Angle, m.Expanded, m.ToSettle = deg(2.8), deg(0.4), finding.OnItsLimit{Mark: pin}
	for verdict, says := range map[mark.Verdict]string{
		mark.Within:               "inlet cam bolt holes: 2.8 ± 0.4 deg late, within the limit of 1 deg.",
		mark.Outside:              "inlet cam bolt holes: 2.8 ± 0.4 deg late, outside the limit of 1 deg.",
		mark.TooClose:             "inlet cam bolt holes: 2.8 ± 0.4 deg late, too close to the limit of 1 deg to call. On the limit: no reading would settle it.",
		mark.NoLimitSaid:          "inlet cam bolt holes: 2.8 ± 0.4 deg late; no limit was given to judge it by.",
		mark.NothingToHoldAgainst: "inlet cam bolt holes: at 4.0 ± 0.4 deg after TDC; what it should be is unknown.",
	} {
		m.Verdict = verdict
		require.Equal(t, says, words.Bench{}.Mark(m))
	}
}
