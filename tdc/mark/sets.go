package mark

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// InSet is a mark as one set has it.
type InSet struct {
	Set          int
	read         []geometry.Angle
	gum.Estimate // Angle is after the set's own TDC
}

// group is marks that are one mark read in several sets, by their places among all.
type group []int

// of is the marks of the group.
func (g group) of(marks []Mark) (list []Mark) {
	for _, i := range g {
		list = append(list, marks[i])
	}
	return list
}

// wrong is an error of the group's mark, or of the set of one of them.
func (g group) wrong(marks []Mark, err error) error {
	of, is := errors.AsType[unread](err)
	for _, i := range g {
		if is && evidence.SetOf(marks[i].Set) == of.set {
			return &Error{Index: i, Set: true, Problem: fmt.Sprintf("mark %q: %v", marks[i].Name, err)}
		}
	}
	return ofMark(g[0], marks[g[0]], "%v", err)
}

// bySet is the marks as groups, each where its first one stands.
func bySet(marks []Mark) (groups []group) {
next:
	for i, m := range marks {
		for k, g := range groups {
			if slices.IndexFunc(g.of(marks), func(other Mark) bool { return !m.again(other) }) < 0 {
				groups[k] = append(g, i)
				continue next
			}
		}
		groups = append(groups, group{i})
	}
	return groups
}

// again tells whether a mark is another one read in another set.
func (m Mark) again(other Mark) bool {
	return m.Name == other.Name && evidence.SetOf(m.Set) != evidence.SetOf(other.Set) && m.Off == nil && other.Off == nil && (m.Lobe == nil) == (other.Lobe == nil) &&
		m.On == other.On && m.Reference() == other.Reference()
}

// readOff is a mark whose place was read on the protractor, in one set or several.
func (f *Judged) readOff(t *Tree, result tdc.Result, sets []Mark) error {
	sets = slices.SortedFunc(slices.Values(sets), func(a, b Mark) int { return a.Set - b.Set })
	var seen []position.Seen
	f.Period = 2 * geometry.Turn
	for _, m := range sets {
		r, known := result.OfSet(m.Set)
		if !known {
			return unread{result.Number, evidence.SetOf(m.Set)}
		}
		s, period := t.seenIn(r, m)
		seen, f.Period = append(seen, s), min(f.Period, period)
		f.Sets = append(f.Sets, InSet{evidence.SetOf(m.Set), m.Read, s.Spread().Estimate(s.Angle)})
		if r.Set == result.Set {
			f.last = len(m.Read)
		}
	}
	f.combine(seen, f.Period)
	return nil
}

// combine sets the position as its sets have it together, known but for whole periods, and
// says where they disagree.
func (f *Judged) combine(seen []position.Seen, period geometry.Angle) {
	c := position.Combine(seen, period)
	f.Period, f.seen, f.Position, f.measuring = period, &c, c.Angle, c.Spread()
	if a := c.Apart; a != nil {
		f.Notes = append(f.Notes, finding.SetsApart{Mark: f.about(), Set: f.Sets[a.Index].Set, By: a.By, Limit: a.Limit})
	}
}

// unread is what is wrong with a mark of a set in which no piston was read.
type unread struct{ cylinder, set int }

func (u unread) Error() string {
	return fmt.Sprintf("it is of set %d, and cylinder %d has no readings of that set. Write the set that it was read in, or read the piston in set %[1]d as well", u.set, u.cylinder)
}

// seenIn is where one set has a mark, and the period that its place is known but for.
// Only a reading past 360 deg tells which turn of the cycle it was taken in.
func (t *Tree) seenIn(r tdc.Result, m Mark) (position.Seen, geometry.Angle) {
	s := r.After(m.Read)
	if !t.AtCamSpeed(m.On) || !countsTwoTurns(m.Read) {
		return s, geometry.Turn
	}
	turns := math.Round(float64((m.Read[0] - r.TDC.Angle - s.Angle) / geometry.Turn))
	s.Angle = Wrapped(s.Angle+geometry.Angle(turns)*geometry.Turn, 2*geometry.Turn)
	return s, 2 * geometry.Turn
}
