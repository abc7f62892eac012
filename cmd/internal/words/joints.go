package words

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark/joint"
)

// Explanation is an explanation's slips: "flywheel on crank, 2.8 ± 1.0 deg late".
func Explanation(e joint.Explanation) string {
	var parts []string
	for _, s := range e.Slips {
		parts = append(parts, Slip(s.Finding()))
	}
	return strings.Join(parts, ", and ")
}

// Slip is a slip's joints, how far and which way.
func Slip(s finding.Slip) string {
	var names []string
	for _, j := range s.Joints {
		if slices.Contains(s.Opposite, j) {
			j += " (" + Way(-s.Off) + ")"
		}
		names = append(names, j)
	}
	return Or(names) + ", " + far(s)
}

// far is how far a slip is, and which way.
func far(s finding.Slip) string {
	return fmt.Sprintf("%s ± %s deg %s", tenths(s.Off), tenths(s.Expanded), Way(s.Off))
}

// Fits is how well the marks agree with an explanation; empty where they cannot say.
func Fits(e joint.Explanation) string {
	switch {
	case e.DegreesOfFreedom == 0:
		return ""
	case e.P >= 0.05:
		return "all marks agree with this"
	}
	return chance(e.P) + " that scatter alone puts the marks so far from it"
}

// ChiSquare is how well an explanation fits, for whoever asks for details; empty
// where the marks cannot say.
func ChiSquare(e joint.Explanation) string {
	if e.DegreesOfFreedom == 0 {
		return ""
	}
	p := "= " + geometry.Decimal(e.P, 1)
	switch {
	case e.P > 0.095:
		p = "= " + Fixed(e.P, 2)
	case e.P < 0.001:
		p = "below 0.001"
	}
	return fmt.Sprintf("chi-square %.1f with %s of freedom, p %s", e.ChiSquare, Count(e.DegreesOfFreedom, "degree"), p)
}

// ofJoint is a finding about a joint, or about a slip after a repair.
func (b Bench) ofJoint(f finding.Finding) string {
	switch f := f.(type) {
	case finding.WholeSteps:
		count := Count(f.Count, string(f.Step))
		return fmt.Sprintf("%s: %s deg agrees with %s %s, %s deg.", f.Name, tenths(f.Off), count, round(f.Steps), Fixed(float64(f.Count)*f.Each().Degrees(), 1))
	case finding.NoWholeSteps:
		return fmt.Sprintf("%s: %s deg is not a whole number; one %s %s would be %s deg.", f.Name, tenths(f.Off), f.Step, round(f.Steps), tenths(f.Each()))
	case finding.HalfCamTurn:
		return f.Name + ": 360 deg of crank is half a turn of the cam: it was fitted half a turn out, or TDC was taken a whole turn away."
	case finding.LobeItself:
		return f.Name + " is the lobe or its follower, beside the cam that carries it."
	case finding.UsualSize:
		var of []string
		for _, c := range f.Causes {
			of = append(of, causes[c])
		}
		return fmt.Sprintf("%s: %s deg %s is a usual size for %s.", f.Name, tenths(f.Off), Way(f.Off), strings.Join(of, ", or "))
	case finding.TDCByOffset:
		return fmt.Sprintf("%s: %s deg %s, the difference that %s makes between the piston's TDC and the throw lying along the bore. Ask which of them the given angles count from.",
			f.Name, tenths(f.Off), Way(f.Off), b.offset(f.Offset, f.Stated))
	case finding.EdgesApart:
		return edgesApart(f)
	case finding.WornLong:
		return wornLong(f)
	case finding.SlipBack:
		return slipBack(f)
	}
	panic(fmt.Sprintf("no words for a %T", f)) // a test words every kind
}

// edgesApart is edges of one wheel that do not agree.
func edgesApart(f finding.EdgesApart) string {
	than := "the other edge"
	if f.Edges > 2 {
		than = fmt.Sprintf("the middle one of the %d edges", f.Edges)
	}
	return fmt.Sprintf("On the %s, %s lies %s deg %s than %s, and no joint moves one edge alone. Check which edge was meant, should_be, and its tooth.",
		f.Wheel, f.Mark, tenths(f.By), Later(f.By), than)
}

// wornLong is cams that stand as a drive worn long leaves them.
func wornLong(f finding.WornLong) string {
	text := fmt.Sprintf("The %s is %s ± %s deg late, and the %s %s ± %s deg more; neither is whole teeth.",
		f.Nearer, tenths(f.Late), tenths(f.LateExpanded), f.Farther, tenths(f.More), tenths(f.MoreExpanded))
	points := " That points to"
	if !f.Beyond {
		points = " Marks made within their limits may show as much, but this may be"
	}
	if text += points + " a belt or chain worn long: it holds every cam back, the farther one along it more"; !f.Told {
		text += fmt.Sprintf(". The %s should then be the farther from the crank along the side that pulls", f.Farther)
	}
	return text + ". Measure its length, and look at its tensioner and guides, before you suspect a sprocket or a cam."
}

// round is what the steps are of.
func round(s finding.Steps) string {
	switch s.Step {
	case finding.Tooth:
		return fmt.Sprintf("of the %d-tooth crank sprocket", s.InTurn)
	case finding.BoltHole:
		return fmt.Sprintf("of %d flywheel bolts", s.InTurn)
	}
	return "of the " + s.Wheel + " wheel"
}

var causes = map[finding.Cause]string{
	finding.WornDrive:    "a worn chain, belt or guide",
	finding.WornKey:      "a worn key",
	finding.FrictionHeld: "a sprocket held by friction alone",
	finding.FreePhaser:   "a phaser that is not locked, or a sprocket that was not held",
	finding.BentPart:     "a bent pointer, pin boss or bracket, or a wrong part",
	finding.CreptDamper:  "a damper's ring that has crept on its rubber",
	finding.MistakenTDC: "lash where the piston was read one way only, an off-centre or slipped protractor, or a given angle that counts from elsewhere: " +
		"rule these out before you suspect the crank",
	finding.MovedScale: "one that moved after the pistons were read, lash where the pistons were read one way only, or a given angle that counts from elsewhere: " +
		"the other cylinders' TDCs lie where cylinder 1's has them",
}

// NoSlips says that not so many slips explain.
func NoSlips(slips int) string {
	if slips == 1 {
		return "no single slip explains"
	}
	return fmt.Sprintf("no %d slips explain", slips)
}

// OffBench leads from a protractor or pointer that may have moved to parts of the engine.
const OffBench = "Where that is ruled out, it may be"

// slipBack is whether what the marks pointed to has been put right.
func slipBack(f finding.SlipBack) string {
	was := "Before, the marks pointed to " + Slip(f.Before) + ". Now "
	switch f.Now {
	case finding.Unexplained:
		return was + NoSlips(f.Tried) + " them, so they do not show whether that slip is gone."
	case finding.NothingMoved:
		if f.Within == nil {
			return was + "no joint has to have moved to explain them: as far as they show, that slip is gone."
		}
		return was + fmt.Sprintf("no joint has to have moved to explain them: that slip is gone, to within %.1f deg (95 %%).", math.Ceil(f.Within.Degrees()*10)/10)
	case finding.NotBack:
		return was + "they still point to it, " + far(*f.After) + ": that slip is still there."
	case finding.MaybeBack:
		return was + "they cannot tell that from others: that slip may still be there."
	}
	return was + "they no longer do: as far as they show, that slip is gone."
}
