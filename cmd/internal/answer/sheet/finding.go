package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
)

// mostWords is how many a finding has: more are not read in ten seconds. A name that
// somebody gave may be long as well, and then the finding goes without it.
const (
	mostWords   = 12
	mostLetters = 90
)

// short tells whether a finding is read at a glance.
func short(text string) bool {
	return len(strings.Fields(text)) <= mostWords && len([]rune(text)) <= mostLetters
}

// finding is what was found, in a dozen words, and how it came out.
func (s Sheet) finding() (string, doc.State) {
	switch {
	case s.repair():
		return s.repaired()
	case s.untold():
		return "These readings do not show where the piston is highest.", doc.TooClose
	case s.outside() > 0:
		return s.moved(), doc.Outside
	case s.answer() != nil || s.Diagnosis.Tried > 0 || len(s.Marks) > 0 && s.Diagnosis.Explanations == nil:
		return s.moved(), doc.TooClose
	case s.count(mark.TooClose) > 0:
		return tooClose(s.count(mark.TooClose)), doc.TooClose
	}
	return s.calm()
}

// outside is how many marks, throws and crowns are.
func (s Sheet) outside() int { return s.count(mark.Outside) }

// count is how many marks, throws and crowns have a verdict.
func (s Sheet) count(v mark.Verdict) int {
	n := len(s.Called(v))
	for _, t := range s.Throws {
		for _, verdict := range []mark.Verdict{t.Verdict, t.CrownVerdict} {
			if verdict == v {
				n++
			}
		}
	}
	return n
}

// tooClose is a finding about so many things that may be within or outside.
func tooClose(n int) string {
	if n == 1 {
		return "One of them is too close to its limit to call."
	}
	return fmt.Sprintf("%d of them are too close to their limits to call.", n)
}

// calm is the finding where nothing is outside or open.
func (s Sheet) calm() (string, doc.State) {
	judged := s.count(mark.Within)
	switch r := s.Results[0]; {
	case len(s.All.Again) > 0:
		return "The protractor moved: marks must be read again.", doc.TooClose
	case judged > 0 && judged == len(s.Marks)+s.throwsJudged():
		return "Everything checked here is within its limit.", doc.Within
	case judged > 0:
		return "Everything with a limit is within it.", doc.Within
	case len(s.Marks) > 0:
		return "No part has to have moved to explain these marks.", doc.Unjudged
	default:
		return "The piston is highest at " + s.reads(r.TDC.Angle, words.Decimals(r.TDC.Expanded.Degrees())) + degreeSign + " on the protractor.", doc.Unjudged
	}
}

// throwsJudged is how many throws and crowns have a verdict.
func (s Sheet) throwsJudged() (n int) {
	for _, t := range s.Throws {
		for _, verdict := range []mark.Verdict{t.Verdict, t.CrownVerdict} {
			if verdict != mark.NoLimitSaid {
				n++
			}
		}
	}
	return n
}

// moved is the finding where marks, throws or crowns are outside, or point somewhere all
// the same.
func (s Sheet) moved() string {
	throws := s.outside() - len(s.Called(mark.Outside))
	answer := s.answer()
	switch {
	case throws > 0 && throws < s.outside():
		return fmt.Sprintf("%d things are outside their limits, %s among them.", s.outside(), s.whatOfCylinders())
	case throws == 1:
		return s.throw()
	case throws > 1:
		return s.severalThrows()
	case answer != nil && len(answer.Slips) == 1:
		return s.one(answer.Slips[0])
	case answer != nil:
		return fmt.Sprintf("%d parts appear to have moved.", len(answer.Slips))
	case s.jumpedToo() != nil:
		return movements(*s.jumpedToo())
	case len(s.Diagnosis.Explanations) == 0:
		return "The marks contradict one another: read them again."
	case len(s.Called(mark.Outside)) == 0:
		return "Together the marks point to a fault, and not yet which."
	case len(s.Called(mark.Outside)) == 1:
		return s.oneMark(s.Called(mark.Outside)[0])
	case s.partly() != nil:
		return fmt.Sprintf("%d marks are outside their limits; not every cause is known yet.", len(s.Called(mark.Outside)))
	}
	return fmt.Sprintf("%d marks are outside their limits; the cause is not yet known.", len(s.Called(mark.Outside)))
}

// movements is the finding about several slips, one of them of whole teeth.
func movements(e joint.Explanation) string {
	i := slices.IndexFunc(e.Slips, func(slip joint.Slip) bool { return wholeTeeth(slip) != "" })
	return fmt.Sprintf("%d movements explain the marks, one as much as %s.", len(e.Slips), wholeTeeth(e.Slips[i]))
}

// whatOfCylinders is what of cylinders is outside: their throws, their crowns or both.
func (s Sheet) whatOfCylinders() string {
	throw := slices.ContainsFunc(s.Throws, func(t mark.JudgedThrow) bool { return t.Verdict == mark.Outside })
	crown := slices.ContainsFunc(s.Throws, func(t mark.JudgedThrow) bool { return t.CrownVerdict == mark.Outside })
	switch {
	case throw && crown:
		return "throws and piston heights"
	case crown:
		return "piston heights"
	}
	return "crank throws"
}

// oneMark is the finding about the one mark that is outside, and for which several parts
// might be to blame.
func (s Sheet) oneMark(m mark.Judged) string {
	text := words.Capital(brief(m.Name)) + ": " + amount(m.Estimate)
	if teeth := s.teeth(m); teeth != "" {
		text += ", as much as " + teeth + "."
	} else {
		text += "; the cause is not yet known."
	}
	if short(text) {
		return text
	}
	return "One mark is outside its limit; the cause is not yet known."
}

// severalThrows is the finding about several throws or crowns that are outside.
func (s Sheet) severalThrows() string {
	if text := "Outside their limits: " + words.And(s.names(mark.Outside)) + "."; short(text) {
		return text
	}
	return fmt.Sprintf("%d crank throws or piston heights are outside their limits.", s.outside())
}

// throw is the finding about the one throw or crown that is outside.
func (s Sheet) throw() string {
	for _, t := range s.Throws {
		if t.Verdict == mark.Outside {
			return fmt.Sprintf("Cylinder %d's crank throw is %s%s out of its place.", t.Cylinder, size(t.Angle, t.Expanded), degreeSign)
		}
	}
	for _, t := range s.Throws {
		if t.CrownVerdict == mark.Outside {
			b := s.Bench()
			return fmt.Sprintf("Cylinder %d's piston stands %s %s %s than the others.", t.Cylinder,
				b.Length(geometry.Length(math.Abs(t.Crown.Value)), geometry.Length(t.Crown.Expanded)), b.Unit(), words.Lower(t.Crown.Value))
		}
	}
	return ""
}

// one is the finding about one slip of one joint, without its name where that is long.
func (s Sheet) one(slip joint.Slip) string {
	by := size(slip.Angle, slip.Expanded) + degreeSign
	name := slip.Joints[0]
	link := s.link(name)
	text := ""
	switch teeth := wholeTeeth(slip); {
	case seen.IsZero(name) || seen.IsZero(legible.Undirected(name)):
		return "The marks put top dead centre itself in doubt; check it first."
	case teeth != "" && link.Drive:
		text = fmt.Sprintf("The %s appears to be %s %s.", driven(link.Carried), teeth, words.Way(slip.Angle))
	case link.Drive:
		text = fmt.Sprintf("The %s appears to be %s %s.", driven(link.Carried), by, words.Way(slip.Angle))
	case link.Carried != "" && link.Carrier != "":
		text = fmt.Sprintf("The %s appears to have turned %s on the %s.", brief(link.Carried), by, brief(link.Carrier))
	default: // a mark itself, a wheel's edges
		text = fmt.Sprintf("Out of place by %s: %s.", by, brief(name))
	}
	if short(text) {
		return text
	}
	return fmt.Sprintf("One part appears to have moved %s, and is named below.", by)
}

// driven is what a chain or belt drives, by the name that a layman knows: the cam in place
// of its sprocket.
func driven(carried string) string {
	if cam, is := strings.CutSuffix(carried, " sprocket"); is {
		if cam == "cam" {
			return cam
		}
		return brief(cam) + " cam"
	}
	return brief(carried)
}

// brief is a name that somebody gave, of a length that goes into a line of a sheet. The
// whole of it is behind the sheet.
func brief(name string) string {
	const most = 36 // letters: "inlet cam sensor's second falling edge" and the like
	return legible.Isolated(words.Cut(legible.Undirected(name), most))
}

// wholeTeeth is a slip in whole teeth, where its interval holds them; "" elsewhere.
func wholeTeeth(slip joint.Slip) string {
	for _, w := range slip.Teeth() {
		return words.Count(w.Count, string(w.Step))
	}
	return ""
}

// link is the joint with a name, as the drive has it; without members of one that is no
// joint between two.
func (s Sheet) link(name string) mark.Joint {
	for _, j := range s.joints {
		if legible.Undirected(j.Name()) == legible.Undirected(name) {
			return j
		}
	}
	return mark.Joint{}
}

// size is how great an angle is, with the digits that its half-width deserves, and no more
// than two of them after the point.
func size(a, half geometry.Angle) string {
	return words.Fixed(math.Abs(a.Degrees()), min(2, words.Decimals(half.Degrees())))
}
