package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// why is what the finding rests on, in a sentence or two.
func (s Sheet) why() string {
	switch {
	case s.repair():
		return s.changed()
	case s.untold():
		return "So no mark can be called right or wrong by them."
	}
	var parts []string
	if outside := s.names(mark.Outside); len(outside) > 0 && len(s.Called(mark.Outside)) > 0 {
		parts = append(parts, "Outside "+words.ItsLimit(len(outside))+": "+words.And(outside)+".")
	}
	if a := s.answer(); a != nil {
		parts = append(parts, explained(*a, len(s.Called(mark.Outside))))
	} else if e := s.jumpedToo(); e != nil {
		parts = append(parts, explained(*e, len(s.Called(mark.Outside)))+" Which of the parts joined by or it was is not yet known: see what to look at next.")
	} else if e := s.partly(); e != nil {
		parts = append(parts, knownPart(*e))
	} else if likely, _, _ := s.Diagnosis.Ranked(); s.Diagnosis.Tried > 0 && len(likely) > 0 {
		parts = append(parts, "The marks cannot tell yet which part moved: see what to look at next.")
	}
	if s.outside() > 0 {
		parts = append(parts, others(s.count(mark.Within), s.count(mark.TooClose))...)
	}
	if len(s.All.Again) > 0 {
		parts = append(parts, fmt.Sprintf("%s not judged, since the protractor moved.", are(len(s.All.Again))))
	}
	if len(parts) == 0 {
		parts = append(parts, s.basis())
	}
	return strings.Join(parts, " ")
}

// basis is what a finding rests on where nothing is off.
func (s Sheet) basis() string {
	if len(s.Marks)+len(s.Throws) == 0 {
		return "That is top dead centre, by the motion of the piston itself. No mark was compared with it."
	}
	if limit := s.Diagnosis.DetectionLimit; s.Diagnosis.Tried == 0 && limit > 0 {
		return fmt.Sprintf("Each was compared with true top dead centre, by the motion of the piston itself. If a single part has moved all the same, it is by no more than %s%s.",
			words.Fixed(limit.Degrees()+0.05, 1), degreeSign)
	}
	return "Each was compared with true top dead centre, by the motion of the piston itself."
}

// explained is how far an answer's slips are, and that they explain the marks.
func explained(e joint.Explanation, outside int) string {
	var parts []string
	for _, slip := range e.Slips {
		parts = append(parts, words.Slip(briefSlip(slip)))
	}
	what := "That agrees with one movement"
	if len(e.Slips) > 1 {
		what = fmt.Sprintf("That agrees with %d movements", len(e.Slips))
	}
	if outside == 0 {
		what = "Together the marks agree with one movement"
	}
	text := what + ": " + strings.Join(parts, ", and ")
	if teeth := wholeTeeth(e.Slips[0]); len(e.Slips) == 1 && teeth != "" {
		text += ", as much as " + teeth
		for _, n := range e.Slips[0].Notes {
			if w, is := n.(finding.WholeSteps); is {
				text += fmt.Sprintf(" of the crank sprocket's %d", w.InTurn)
			}
		}
	}
	return signed(text + ".")
}

// knownPart is which movement is known of several, and that the others are not.
func knownPart(e joint.Explanation) string {
	var known []string
	for _, slip := range e.Slips {
		if len(slip.Joints) == 1 {
			known = append(known, words.Slip(briefSlip(slip)))
		}
	}
	return signed("That agrees with "+words.And(known)) + "; for the rest see what to look at next."
}

// briefSlip is a slip with names that go into a line.
func briefSlip(s joint.Slip) finding.Slip {
	f := s.Finding()
	f.Joints, f.Opposite = each(f.Joints), each(f.Opposite)
	return f
}

// each is names that go into a line.
func each(names []string) (list []string) {
	for _, name := range names {
		list = append(list, brief(name))
	}
	return list
}

// never is what not to do; "" where there is nothing to forbid.
func (s Sheet) never() string {
	switch {
	case s.untold():
		return "Do not time the engine by these readings."
	case slices.ContainsFunc(s.Marks, func(m mark.Judged) bool { return s.teeth(m) != "" }):
		return words.StartNot
	}
	return s.Never()
}

// names is what has a verdict, by name.
func (s Sheet) names(v mark.Verdict) []string { return shortened(named(s.All, v)) }

// named is what of an answer has a verdict, by name.
func named(f found.All, v mark.Verdict) (list []string) {
	for _, m := range f.Called(v) {
		list = append(list, brief(m.Name))
	}
	for _, t := range f.Throws {
		if t.Verdict == v {
			list = append(list, fmt.Sprintf("cylinder %d's throw", t.Cylinder))
		}
		if t.CrownVerdict == v {
			list = append(list, fmt.Sprintf("cylinder %d's piston height", t.Cylinder))
		}
	}
	return list
}

// NotAgain is what was outside its limit before and was not judged after, by name.
func NotAgain(before, after found.All) (list []string) {
	seen := slices.Concat(named(after, mark.Within), named(after, mark.Outside), named(after, mark.TooClose))
	for _, name := range named(before, mark.Outside) {
		if !slices.Contains(seen, name) {
			list = append(list, name)
		}
	}
	return list
}

// shortened is as many names as a sentence has, and how many there are besides.
func shortened(list []string) []string {
	if len(list) > mostNamed {
		list = append(list[:mostNamed:mostNamed], words.Count(len(list)-mostNamed, "other"))
	}
	return list
}

// mostNamed is how many are named in a sentence.
const mostNamed = 4

// others is how many are within beside those outside, and how many may be either.
func others(within, close int) (parts []string) {
	if within > 0 {
		parts = append(parts, are(within)+" within.")
	}
	if close > 0 {
		parts = append(parts, are(close)+" too close to call.")
	}
	return parts
}

// are is so many others and their verb.
func are(n int) string {
	if n == 1 {
		return "One other is"
	}
	return fmt.Sprintf("%d others are", n)
}

// degrees after a number are a sign on a sheet, as on a dial.
var degrees = regexp.MustCompile(`(\d) deg\b`)

func signed(text string) string { return degrees.ReplaceAllString(text, "$1"+degreeSign) }
