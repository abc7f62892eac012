package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
)

// repaired is the finding of a sheet of before and after: only what was measured, since
// nobody said what was done in between.
func (s Sheet) repaired() (string, doc.State) {
	outside, still := s.outside(), s.still()
	switch close := s.count(mark.TooClose); {
	case len(s.changes()) == 0:
		return "The two jobs have no mark in common to compare.", doc.TooClose
	case outside > 0 && still == outside:
		return "Measured again: " + words.Count(outside, s.noun(mark.Outside)) + isStill(outside) + words.ItsLimit(outside) + ".", doc.Outside
	case outside > 0:
		return fmt.Sprintf("Measured again: %s outside %s now.", s.so(mark.Outside), words.ItsLimit(outside)), doc.Outside
	case close > 0:
		return fmt.Sprintf("Measured again: %s too close to %s to call.", s.so(mark.TooClose), words.ItsLimit(close)), doc.TooClose
	case s.Diagnosis.Tried > 0 || s.Diagnosis.Explanations == nil:
		return "Measured again: together the marks still point to a fault.", doc.TooClose
	case len(s.notAgain()) > 0:
		return "Measured again, but not all that was outside its limit.", doc.Unjudged
	case s.count(mark.Within) == len(s.Marks)+s.throwsJudged():
		return "Measured again: every mark checked is within its limit.", doc.Within
	}
	return "Measured again: everything with a limit is within it.", doc.Unjudged
}

func isStill(n int) string {
	if n == 1 {
		return " is still outside "
	}
	return " are still outside "
}

// still is how many things are outside that were so before.
func (s Sheet) still() (n int) {
	before := named(s.Again.Before, mark.Outside)
	for _, name := range named(s.All, mark.Outside) {
		if slices.Contains(before, name) {
			n++
		}
	}
	return n
}

// noun is what the things with a verdict are.
func (s Sheet) noun(v mark.Verdict) string {
	if s.count(v) > len(s.Called(v)) {
		return "thing" // a throw or a piston's height among them
	}
	return "mark"
}

// so is how many things have a verdict, and their verb.
func (s Sheet) so(v mark.Verdict) string {
	n := s.count(v)
	if n == 1 {
		return "one " + s.noun(v) + " is"
	}
	return fmt.Sprintf("%d %ss are", n, s.noun(v))
}

// changed is what became of what was found before, and of each mark.
func (s Sheet) changed() string {
	parts := s.Bench().Findings(s.Again.Back)
	for _, verdict := range []mark.ChangeVerdict{mark.Changed, mark.Unchanged, mark.ChangeUncertain} {
		var list []string
		for _, c := range s.changes() {
			if c.Verdict == verdict && len(list) < mostNamed {
				list = append(list, change(c))
			}
		}
		if len(list) > 0 {
			parts = append(parts, words.Capital(string(verdict))+": "+words.And(list)+".")
		}
	}
	if left := shortened(s.notAgain()); len(left) > 0 {
		parts = append(parts, "Outside before, and not measured again: "+words.And(left)+".")
	}
	return signed(strings.Join(parts, " "))
}

// notAgain is what was outside before and was not measured again.
func (s Sheet) notAgain() []string { return NotAgain(s.Again.Before, s.All) }

// change is a mark and how far it went; of one that did not, its name.
func change(c mark.Change) string {
	if c.Verdict == mark.Unchanged {
		return brief(c.After.Name)
	}
	return fmt.Sprintf("%s, %s deg %s", brief(c.After.Name), words.Within(math.Abs(c.Angle.Degrees()), c.Expanded.Degrees()), words.Later(c.Angle))
}

// changes is of each mark that both have; none of a first sheet.
func (s Sheet) changes() []mark.Change {
	if s.Again == nil {
		return nil
	}
	return s.Again.Changes
}
