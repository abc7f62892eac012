package sheet

import (
	"fmt"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/inspect"
)

// next is what to look at or do, in order, what was not checked, and what the signs mean.
func (s Sheet) next() doc.Document {
	var d doc.Document
	title, steps := s.steps()
	d.Section(title)
	d.Add(doc.List{Ordered: true, Items: steps})
	if list := s.Diagnosis.Unmeasured; len(list) > 0 && !s.untold() {
		d.SayAs(doc.Quiet, "Not checked here: "+strings.Join(each(list[:min(mostUnchecked, len(list))]), ", ")+".")
	}
	if s.judged() {
		d.Add(key)
	}
	return d
}

// judged tells whether anything has a verdict.
func (s Sheet) judged() bool { return s.count(mark.Within)+s.outside()+s.count(mark.TooClose) > 0 }

// key is what the signs mean.
var key = doc.List{
	Role:   doc.Quiet,
	Items:  []string{"within: all of ± inside what is allowed", "outside: all of ± beyond it", "too close to call: ± crosses its edge"},
	States: []doc.State{doc.Within, doc.Outside, doc.TooClose},
}

// mostUnchecked is how many parts are named that no mark checks.
const mostUnchecked = 8

// mostLooks is how many looks a sheet asks for.
const mostLooks = 3

// steps is what to do, under its title.
func (s Sheet) steps() (title string, steps []string) {
	switch {
	case s.untold():
		return "What to do next, in this order", []string{
			"Check what was written down, the engine's dimensions and the set-up.",
			"Read the piston again on both sides of the top.",
			"Then measure again on a new sheet.",
		}
	case s.outside()+s.count(mark.TooClose)+len(s.All.Again) == 0 && s.Diagnosis.Tried == 0 && s.judged():
		return "Before the engine is started", []string{
			"Take out every pin, stop and gauge; count tools and parts.",
			"Turn two full turns by hand, look at the marks once more, and take the bar off.",
			"Keep this sheet with the engine's papers.",
		}
	}
	if len(s.All.Again) > 0 {
		steps = append(steps, "Read again the marks that the protractor may have moved since.")
	}
	for _, l := range s.Diagnosis.TellApart[:min(mostLooks, len(s.Diagnosis.TellApart))] {
		steps = append(steps, look(l))
	}
	for _, m := range s.Called(mark.TooClose) {
		if m.ToSettle != nil && len(steps) < mostLooks {
			steps = append(steps, words.Capital(brief(m.Name))+": "+signed(s.Bench().Finding(m.ToSettle)))
		}
	}
	if len(steps) == 0 && s.outside() > 0 {
		steps = append(steps, words.ReadOutside)
	}
	for _, t := range s.Throws {
		if t.CrownVerdict == mark.Outside && len(steps) < mostLooks {
			steps = append(steps, fmt.Sprintf("See whether cylinder %d's rod is bent, or its parts differ from the others'.", t.Cylinder))
		}
	}
	if len(steps) == 0 {
		return "What to do next", []string{"Compare the marks of this engine with this top dead centre.", "Keep this sheet with the engine's papers."}
	}
	return "Look at next, in this order", append(steps, "Then measure again: all marks on a new sheet.")
}

// look is a look as a sentence of its own.
func look(l inspect.Look) string {
	l.Part, l.On = brief(l.Part), brief(l.On)
	text := words.Capital(words.Look(l))
	if l.Teeth {
		text += ", before any part is bought"
	}
	return text + "."
}
