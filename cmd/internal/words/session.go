package words

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

const movedBetween = "a pointer or a gauge that moved between the two flanks"

// OneWayHides is finding.OneWayOnly of readings that nobody has taken yet.
const OneWayHides = "Turned one way, " + movedBetween + " cannot be seen."

// ofSession is a finding about what happened while readings were taken; "" for others.
func (b Bench) ofSession(f finding.Finding) string {
	switch f := f.(type) {
	case finding.ProtractorMoved:
		grows, half := b.Protractor.Grows(f.By).Degrees(), f.Expanded.Degrees()
		return fmt.Sprintf("%s the protractor reads %s deg %s: is the pointer loose, or was it moved? TDC is given for the protractor as it stands now. %s%s",
			Capital(b.after(f.Moment)), Within(math.Abs(grows), half), moreOrLess(grows), sure(f.Probability), b.instead(f.Or))
	case finding.GaugeMoved:
		return fmt.Sprintf("%s the gauge shows %s %s: was it knocked, or set to zero again? %s%s", Capital(b.after(f.Moment)),
			b.LengthWithin(geometry.Length(math.Abs(float64(f.By))), f.Expanded), moreOrLess(float64(f.By)), sure(f.Probability), b.instead(f.Or))
	case finding.TurnSwapped:
		return fmt.Sprintf("Readings %d to %d, from %s on, fit as turned the other way than written: if the crank was turned so, correct their turn. %s%s",
			f.From, f.To, b.line(f.Place), sure(f.Probability), b.instead(f.Or))
	case finding.OneWayOnly:
		return "All readings were turned one way: " + movedBetween + " cannot be seen that way. " +
			"Where it is safe, turn back and read again."
	case finding.LashBeyond:
		return fmt.Sprintf("Lash of %s, where %s was stated: worn bearings, or readings whose turn is written wrongly.",
			b.LengthWithin(f.Lash, f.Expanded), b.LengthWithin(f.Stated, f.KnownTo))
	}
	return ""
}

// instead says what may have moved instead, and what to do about it; "" of nothing.
func (b Bench) instead(m *finding.Instead) string {
	if m == nil {
		return ""
	}
	var what string
	switch {
	case m.Angle != 0:
		grows := b.Protractor.Grows(m.Angle).Degrees()
		what = fmt.Sprintf("the protractor reads %.1f deg %s after reading %d", math.Abs(grows), moreOrLess(grows), m.After)
	case m.Depth != 0:
		what = fmt.Sprintf("the gauge shows %s %s after reading %d", b.Drop(geometry.Length(math.Abs(float64(m.Depth)))), moreOrLess(float64(m.Depth)), m.After)
	default:
		what = fmt.Sprintf("readings %d to %d were turned the other way than written", m.After+1, m.To)
	}
	return fmt.Sprintf(" The readings do not show what moved: it may also be that %s. Look at both, then read both flanks again.", what)
}

// after is when something moved: "after reading 13 (line 15)".
func (b Bench) after(m finding.Moment) string {
	switch {
	case m.After < 1: // a run whose turn is in doubt
		return "from the first reading on"
	case m.File == "":
		return fmt.Sprintf("after reading %d", m.After)
	}
	return fmt.Sprintf("after reading %d (%s)", m.After, b.line(m.Place))
}

// line is where a reading stands, without what it is.
func (b Bench) line(p finding.Place) string {
	if p.File == "" {
		return fmt.Sprintf("reading %d", p.Line)
	}
	return fmt.Sprintf("%s line %d", p.File, p.Line)
}

func moreOrLess(by float64) string {
	if by < 0 {
		return "less"
	}
	return "more"
}

// sure is how sure it is that anything moved.
func sure(probability float64) string {
	const least, most = 70, 99
	percent := 100 * probability
	switch {
	case percent < least: // where it is, nobody would have looked for it
		return "A step so great is hardly chance."
	case percent > most:
		return fmt.Sprintf("It is more than %d %% sure that something moved.", most)
	}
	return fmt.Sprintf("It is %.0f %% sure that something moved.", percent)
}
