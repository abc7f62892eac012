package words

import (
	"fmt"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// ofLobePlan is what to know before a lobe is read, without its name; "" for another
// finding.
func (b Bench) ofLobePlan(f finding.Finding) string {
	switch f := f.(type) {
	case finding.LobeTopAssumed:
		return fmt.Sprintf("Its greatest lift is not stated, and %s is taken for it. The lifts marked shape are a quarter, a half and three quarters of the top. See first what the top is, and type it as top under [[lobe]].", b.Stated(f.Top))
	case finding.LobeUncarded:
		return b.uncarded(f)
	case finding.LobeLowLift:
		return fmt.Sprintf("A checking lift of %s lies on the ramp of most lobes, where an angle says little of a moved cam. There the ± foreseen do not hold. Where the card has a greater lift, such as %s, use that.", b.Depth(f.Lift), b.Stated(geometry.Millimetre))
	case finding.LobeLiftHigh:
		return fmt.Sprintf("Nothing is planned: the checking lift of %s lies too near the top of %s. Correct lift, top, ratio or lash under [[lobe]].", b.Depth(f.Lift), b.Depth(f.Top))
	case finding.LobeLimit:
		return b.lobeLimit(f)
	}
	return ""
}

// uncarded is what can be planned of a lobe without opening and closing.
func (b Bench) uncarded(f finding.LobeUncarded) string {
	text := "It has no opening and closing to compare with, so it is measured only, and where to expect the lifts is not known"
	if f.Centred {
		text = "Its card has a centre and no opening and closing, so only the top's place is known beforehand, and missing lift will not show"
	}
	return fmt.Sprintf("%s. Turn until the gauge shows each lift, the same ones on both sides: they tell the middle of each. What that reaches is worked out for a lobe that is open for %s deg at %s.",
		text, Plain(f.Duration.Degrees()), b.Depth(f.Lift))
}

// lobeLimit is what more readings do not shrink, and what does.
func (b Bench) lobeLimit(f finding.LobeLimit) string {
	half := func(a geometry.Angle) string { return Fixed(a.Degrees(), 2) }
	text := fmt.Sprintf("More readings of the lobe do not shrink the ± %s. Of it the protractor makes %s, the cam's run-out of %s makes %s, the gauge on the lobe %s, TDC and the rest %s. Their squares add up.",
		half(f.Known), half(f.Protractor), b.Stated(f.RunOut), half(f.Heel), half(f.Gauge), half(f.Rest))
	var would []string
	if f.Finer != nil && gains(*f.Finer, f.Known) {
		would = append(would, fmt.Sprintf("A protractor read to %s deg and good to that would make it ± %s.", Plain(f.Fine.Degrees()), half(*f.Finer)))
	}
	if gains(f.Moved, f.Known) {
		would = append(would, fmt.Sprintf("This one makes it ± %s by the mean of two settings. Move it on the crank by a good part of a turn, and read piston and lobe again, as a [[lobe]] of its own with set = 2.", half(f.Moved)))
	}
	if f.Heel > f.Known/3 {
		would = append(would, fmt.Sprintf("See how far the gauge moves over the heel. Where it is less, say half as much, type gauge = { runout = %s }.", b.Number(f.RunOut/2)))
	}
	if f.Slack > 0 && f.Rest > f.Known/2 {
		would = append(would, fmt.Sprintf("The slack of the drive, %s deg, is in the rest. Light springs on the valves keep it on one side, and then less may be typed as slack.", Plain(f.Slack.Degrees())))
	}
	return strings.Join(append([]string{text}, would...), " ")
}

// gains tells whether a half-width is so much less than another that it is worth a word.
func gains(less, than geometry.Angle) bool { return less < 0.95*than }
