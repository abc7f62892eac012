package words

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// Named is a finding with the mark that it is about before it, where it is about one.
func (b Bench) Named(f finding.Finding) string {
	if of, is := f.(finding.OfMark); is && of.About() != "" {
		return of.About() + ": " + b.Finding(f)
	}
	return b.Finding(f)
}

// Findings is findings in words, one each.
func (b Bench) Findings(list []finding.Finding) []string {
	out := make([]string, 0, len(list))
	for _, f := range list {
		out = append(out, b.Finding(f))
	}
	return out
}

// Mark is how far off a mark is, and what that means.
func (b Bench) Mark(m mark.Judged) string {
	off := m.Name + ": " + Off(m.Angle, m.Expanded)
	limit := Plain(m.Limit.Degrees())
	switch m.Verdict {
	case mark.Within:
		return fmt.Sprintf("%s, within the limit of %s deg.", off, limit)
	case mark.Outside:
		return fmt.Sprintf("%s, outside the limit of %s deg.", off, limit)
	case mark.TooClose:
		text := fmt.Sprintf("%s, too close to the limit of %s deg to call.", off, limit)
		if m.ToSettle != nil {
			text += " " + b.Finding(m.ToSettle)
		}
		return text
	case mark.NothingToHoldAgainst:
		return fmt.Sprintf("%s: at %s deg after TDC; what it should be is unknown.", m.Name, Within(m.Position.Degrees(), m.Expanded.Degrees()))
	}
	return off + "; no limit was given to judge it by."
}

// ofMark is a finding about a mark, without its name.
func (b Bench) ofMark(f finding.Finding) string {
	const stays = "would settle it, if it stays where it is."
	switch f := f.(type) {
	case finding.ReadingsApart:
		return fmt.Sprintf("The readings lie %s deg apart: read again. A decimal is written with a point, as in [3.5, 3.5].", tenths(f.Apart))
	case finding.SetsApart:
		return fmt.Sprintf("Set %d has it %s deg %s than all its sets together, and up to %s could be chance. Check what was read, and in which set. "+
			"Until then it is known no better than the sets agree.", f.Set, Fixed(math.Abs(f.By.Degrees()), 2), Later(f.By), Fixed(f.Limit.Degrees(), 2))
	case finding.ReadBeforeMove:
		when := "nobody said whether it was read since"
		if f.Said {
			when = "it was read before"
		}
		return fmt.Sprintf("It is not judged: the protractor moved after reading %d, and %s. Read it again, and state after_reading, "+
			"the number of readings taken before it.", f.After, when)
	case finding.FarOff:
		return fmt.Sprintf("Off by %s deg: first check what was read and typed, and should_be.", Signed(f.Off.Degrees(), 1))
	case finding.LobeFarOff:
		return fmt.Sprintf("Off by %s deg, farther than a drive slips. First check that the gauge stood on this valve: the exhaust lobe may have been read as the inlet, or the other way. "+
			"Then check that the card is this cam's, and counts from the TDC between the two valves, not from the one 360 deg away. Last check that TDC is this cylinder's.", Signed(f.Off.Degrees(), 1))
	case finding.KnownToAssumed:
		return fmt.Sprintf("known_to is not stated: taken as %s deg of crank.", Plain(f.KnownTo.Degrees()))
	case finding.ShouldBeAssumed:
		from := "the piston's TDC"
		if f.FromThrow {
			from = "the throw along the bore"
		}
		return fmt.Sprintf("should_be is not stated: compared with %s, 0. State it, or should_be = \"unknown\" where nobody knows.", from)
	case finding.OffsetMakes:
		return b.offsetMakes(f)
	case finding.OnItsLimit:
		return "On the limit: no reading would settle it."
	case finding.MoreReadings:
		switch {
		case f.OfPiston == 0:
			return fmt.Sprintf("%s of the mark %s", Capital(more(f.OfMark)), stays)
		case f.OfMark == 0:
			return fmt.Sprintf("%s of the piston each side of TDC %s", Capital(more(f.OfPiston)), stays)
		}
		return fmt.Sprintf("%s of the mark, and as many of the piston each side of TDC, %s", Capital(more(f.OfMark)), stays)
	case finding.NotByReadings:
		in, help := doubt(f)
		return fmt.Sprintf("More readings like these would not settle it: that takes ± %s deg, and most of the doubt is in %s. %s would help.",
			geometry.Decimal(f.Needed.Degrees(), 2), in, help)
	case finding.MeasuredBetter:
		return fmt.Sprintf("Measuring to ± %s crank deg or better would settle it, if it stays where it is.", geometry.Decimal(math.Floor(f.KnownTo.Degrees()*100)/100, 2))
	case finding.NoMeasurement:
		return "A better measurement would not settle it: where it should be is not known well enough."
	}
	if text := b.ofLobe(f); text != "" {
		return text
	}
	return b.ofJoint(f)
}

// more is so many further readings.
func more(n int) string {
	if n == 1 {
		return "one more reading"
	}
	return fmt.Sprintf("%d more readings", n)
}

// doubt is where the doubt of a mark is, and what would help.
func doubt(f finding.NotByReadings) (in, help string) {
	switch f.Doubt {
	case finding.DoubtTDC:
		return "TDC: " + Source(f.Source), "What makes TDC surer"
	case finding.DoubtNominal:
		return "where it should be", "A given angle that is better known"
	case finding.DoubtHealthy:
		return "where it should be", "More healthy engines, kept together,"
	}
	switch {
	case f.Set == 0: // of no set that anybody numbered
		help = "A finer protractor"
	case f.MoveWheel:
		help = fmt.Sprintf("A finer protractor, or this one moved on the crank and mark and piston read again as set %d,", f.Set)
	default:
		help = fmt.Sprintf("A finer protractor, or the mark read in set %d as well,", f.Set)
	}
	return "the protractor's own error and step", help
}

// offsetMakes is of one mark or of several.
func (b Bench) offsetMakes(f finding.OffsetMakes) string {
	const ask = "between the piston's TDC and the throw lying along the bore. Ask which of them"
	made := b.offset(f.Offset, f.Stated)
	if len(f.Marks) == 1 {
		return fmt.Sprintf("Off by %s deg, the difference that %s makes %s the given angle counts from.", Signed(f.Marks[0].Off.Degrees(), 1), made, ask)
	}
	var names []string
	for _, m := range f.Marks {
		names = append(names, fmt.Sprintf("%s (%s deg)", m.Mark, Signed(m.Off.Degrees(), 1)))
	}
	return fmt.Sprintf("%s: off by the difference that %s makes %s the given angles count from.", And(names), made, ask)
}

// offset names an offset, the engine's own or one that it might have.
func (b Bench) offset(offset geometry.Length, stated bool) string {
	if stated {
		return "the engine's offset of " + b.Stated(offset)
	}
	places := 0
	if b.Inches {
		places = 2
	}
	return "an offset of " + Fixed(b.In(offset), places) + " " + b.Unit()
}

// tenths is how great an angle is.
func tenths(a geometry.Angle) string { return Fixed(math.Abs(a.Degrees()), 1) }
