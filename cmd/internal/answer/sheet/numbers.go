package sheet

import (
	"cmp"
	"evendrop/cmd/internal/answer/find/picture"
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// mostNumbers is how many are taken in at a glance.
const mostNumbers = 4

// numbers are the few that matter: TDC on the protractor, where it is no sheet of a
// repair, and what is farthest from fine.
func (s Sheet) numbers() doc.Numbers {
	var list doc.Numbers
	if !s.repair() {
		list = append(list, s.tdc())
	}
	if s.untold() {
		return list
	}
	for _, n := range s.ranked() {
		if len(list) < mostNumbers {
			list = append(list, n)
		}
	}
	return list
}

// ranked is throws and marks, those first that matter most. A mark that stands a tooth off
// matters as one that is outside does, though nobody said what is allowed it.
func (s Sheet) ranked() (list doc.Numbers) {
	urgent := map[string]int{}
	for _, n := range s.throws() {
		list, urgent[n.What+n.Where] = append(list, n), urgency(n)
	}
	for _, m := range s.sorted() {
		n := s.number(m)
		list, urgent[n.What+n.Where] = append(list, n), urgency(n)
		if s.teeth(m) != "" {
			urgent[n.What+n.Where] = max(urgency(n), urgency(doc.Number{State: doc.Outside}))
		}
	}
	slices.SortStableFunc(list, func(a, b doc.Number) int {
		return cmp.Compare(urgent[b.What+b.Where], urgent[a.What+a.Where])
	})
	return list
}

// urgency orders numbers: what is likely the cause before what else is outside.
func urgency(n doc.Number) int {
	u := map[doc.State]int{doc.Outside: 3, doc.TooClose: 2, doc.Within: 1}[n.State]
	if n.Was != nil && n.Was.State == doc.Outside {
		u = max(u, 2)
	}
	if n.Likely {
		return u + 1
	}
	return u
}

// sorted is the marks, those first that are farthest from fine.
func (s Sheet) sorted() []mark.Judged {
	list := slices.Clone(s.Marks)
	rank := map[mark.Verdict]int{mark.Outside: 2, mark.TooClose: 1}
	slices.SortStableFunc(list, func(a, b mark.Judged) int {
		was := func(m mark.Judged) int { return rank[m.Verdict] + rank[s.before(m).Verdict] }
		return cmp.Or(cmp.Compare(rank[b.Verdict], rank[a.Verdict]), cmp.Compare(was(b), was(a)))
	})
	return list
}

// tdc is where the first cylinder's TDC is on the protractor.
func (s Sheet) tdc() doc.Number {
	r := s.Results[0]
	n := doc.Number{What: "True top dead centre", Where: "on the protractor", Unit: degreeSign, Word: "found"}
	if len(s.Results) > 1 {
		n.What = fmt.Sprintf("Cylinder %d's top dead centre", r.Number)
	}
	shown := s.reads(r.TDC.Angle, words.Decimals(r.TDC.Expanded.Degrees()))
	n.Value, n.Way, _ = strings.Cut(shown, " ") // of a scale with sides
	n.Half = words.WithinDegrees(r.TDC.Expanded) + degreeSign
	if s.untold() {
		n.State, n.Word = doc.TooClose, "cannot be determined"
	}
	return n
}

// reads is a crank angle as the protractor shows it.
func (s Sheet) reads(a geometry.Angle, places int) string { return s.Bench().Reads(a, places) }

// number is a mark.
func (s Sheet) number(m mark.Judged) doc.Number {
	n := off(m.Estimate)
	n.What, n.Where = words.Capital(brief(m.Name)), "on the "+brief(m.On)
	n.State, n.Word, n.Likely = picture.States[m.Verdict], string(m.Verdict), s.suspect(m) != ""
	if m.HasLimit {
		n.Allow = words.Plain(m.Limit.Degrees()) + degreeSign
	} else {
		n.Word = "no limit given"
	}
	if s.onCam(m) {
		n.Notes = append(n.Notes, "at the cam "+words.Within(math.Abs(m.Angle.Degrees())/2, m.Expanded.Degrees()/2)+degreeSign)
	}
	if teeth := s.teeth(m); teeth != "" {
		n.Notes = append(n.Notes, "as much as "+teeth)
	}
	if was := s.before(m); was.Name != "" {
		n.Was = &doc.Was{Says: says(was), State: picture.States[was.Verdict]}
	}
	return n
}

// off is how far something is off, either way.
func off(e gum.Estimate) doc.Number {
	places := words.Decimals(e.Expanded.Degrees())
	n := doc.Number{Value: words.Fixed(math.Abs(e.Angle.Degrees()), places), Unit: degreeSign, Half: words.Fixed(e.Expanded.Degrees(), places) + degreeSign}
	if strings.Trim(n.Value, "0.") != "" {
		n.Way = words.Way(e.Angle)
	}
	return n
}

// amount is the same in words: "2.8° late".
func amount(e gum.Estimate) string {
	n := off(e)
	return strings.TrimSpace(n.Amount() + " " + n.Way)
}

// says is a mark in a few words: "2.8° late, outside".
func says(m mark.Judged) string {
	text := amount(m.Estimate)
	if m.HasLimit {
		text += ", " + string(m.Verdict)
	}
	return text
}

// before is the mark as it was before the repair; without a name where there is none.
func (s Sheet) before(m mark.Judged) mark.Judged {
	for _, c := range s.changes() {
		if legible.Undirected(c.After.Name) == legible.Undirected(m.Name) {
			return c.Before
		}
	}
	return mark.Judged{}
}

// onCam tells whether a mark turns at half the crank's speed.
func (s Sheet) onCam(m mark.Judged) bool { return m.Lobe != nil || s.driven(m.On) }

// driven tells whether a member hangs on a drive to a shaft that turns at half the speed.
func (s Sheet) driven(member string) bool {
	for _, l := range s.above(member) {
		if l.Drive {
			return true
		}
	}
	return false
}

// teeth is how many whole teeth a mark is off by, where it is by teeth; "" elsewhere.
func (s Sheet) teeth(m mark.Judged) string {
	if w, is := s.jumped(m); is {
		return words.Count(w.Count, string(w.Step))
	}
	return ""
}

// jumped is the teeth that a mark is off by, where a joint that it hangs by is likely to
// have jumped by them and its ± holds them; of a mark that has no limit, too.
func (s Sheet) jumped(m mark.Judged) (finding.WholeSteps, bool) {
	likely, _, _ := s.Diagnosis.Ranked()
	for _, e := range likely {
		for _, slip := range e.Slips {
			for _, w := range slip.Teeth() {
				if (m.Verdict == mark.Outside || !m.HasLimit) && s.hangs(m, w.Name) && holds(m.Estimate, w) {
					return w, true
				}
			}
		}
	}
	return finding.WholeSteps{}, false
}

// holds tells whether an interval holds whole steps.
func holds(e gum.Estimate, w finding.WholeSteps) bool {
	return math.Abs(math.Abs(e.Angle.Degrees())-float64(w.Count)*w.Each().Degrees()) <= e.Expanded.Degrees()
}

// throws is the throws and crowns that were judged, but for the first cylinder's throw,
// which the others are measured from.
func (s Sheet) throws() (list doc.Numbers) {
	engine, b := s.Job.Setup.Engine, s.Bench()
	for i, t := range s.Throws {
		if i > 0 && t.Verdict != mark.NoLimitSaid {
			n := off(t.Estimate)
			n.What, n.Where = fmt.Sprintf("Cylinder %d's crank throw", t.Cylinder), fmt.Sprintf("from cylinder %d's", s.Throws[0].Cylinder)
			n.State, n.Word, n.Allow = picture.States[t.Verdict], string(t.Verdict), words.Plain(engine.ThrowLimit.Degrees())+degreeSign
			list = append(list, n)
		}
		if c := t.Crown; c != nil && t.CrownVerdict != mark.NoLimitSaid {
			value, half := geometry.Length(math.Abs(c.Value)), geometry.Length(c.Expanded)
			n := doc.Number{What: fmt.Sprintf("Cylinder %d's piston height", t.Cylinder), Where: "from the others", Value: b.Length(value, half), Unit: b.Unit(), Way: words.Lower(c.Value),
				Half: b.Length(half, half) + " " + b.Unit(), State: picture.States[t.CrownVerdict], Word: string(t.CrownVerdict), Allow: b.Stated(engine.CrownLimit)}
			list = append(list, n)
		}
	}
	return list
}
