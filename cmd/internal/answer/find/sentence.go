package find

import (
	"fmt"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/mark"
)

// sentence is what a person can act on: what the marks come to, where TDC is, and
// what to make of each mark.
func (f Answer) sentence() string {
	parts := f.againstTurn()
	throws := f.throwSentences()
	if text := f.Headline(); text != "" && len(throws) == 0 {
		parts = append(parts, text)
	}
	parts = append(parts, throws...)
	for i, r := range f.Results {
		if i == 0 && !r.AgainstTurn() || CannotTell(r) && !r.AgainstTurn() {
			parts = append(parts, f.where(r))
		}
	}
	return strings.Join(append(parts, f.MarkSentences()...), " ")
}

// againstTurn says, before all else, of each cylinder whose readings go against their
// turn that nothing can be called late or early, and what to type.
func (f Answer) againstTurn() (parts []string) {
	for _, r := range f.Results {
		if !r.AgainstTurn() {
			continue
		}
		of := ""
		if len(f.Results) > 1 {
			of = fmt.Sprintf("Cylinder %d: ", r.Number)
		}
		places := words.Decimals(r.TDC.Expanded.Degrees())
		parts = append(parts, fmt.Sprintf("%s. Until then TDC is no more than near %s deg on the protractor.",
			words.Capital(of+f.Untold(r)), f.Reads(r.TDC.Angle, min(places, 1))))
	}
	return parts
}

// where says where TDC is, or that it cannot be told.
func (f Answer) where(r tdc.Result) string {
	places := words.Decimals(r.TDC.Expanded.Degrees())
	at := fmt.Sprintf("at %s ± %s deg on the protractor (95 %%)", f.Reads(r.TDC.Angle, places), words.Fixed(r.TDC.Expanded.Degrees(), places))
	of := ""
	if len(f.Results) > 1 {
		of = fmt.Sprintf(" of cylinder %d", r.Number)
	}
	if CannotTell(r) {
		text := fmt.Sprintf("True TDC%s cannot be told from these readings: %s. Do not rely on what stands below, which puts it %s: "+
			"check what was typed, the engine's dimensions and the set-up, and read both flanks anew.", of, f.Untold(r), at)
		if r.Number == f.Results[0].Number && len(f.Job.Marks) > 0 {
			text += " No mark is judged by it."
		}
		return text
	}
	if of != "" {
		return fmt.Sprintf("Cylinder %d's true TDC is %s.", r.Number, at)
	}
	return fmt.Sprintf("True TDC is %s.", at)
}

// markSentences is what to make of each mark. A mark among many that is as it
// should be, or cannot be judged, stays in the table, and so do many that are all
// outside.
func (f Answer) MarkSentences() []string {
	var parts []string
	outside := 0
	for _, m := range f.Marks {
		if m.Verdict == mark.Outside {
			outside++
		}
	}
	for _, m := range f.Marks {
		few := len(f.Marks) <= fewMarks
		if m.Verdict == mark.Outside && outside > fewMarks || !few && (m.Verdict == mark.Within || m.Verdict == mark.NoLimitSaid) {
			continue
		}
		parts = append(parts, f.bench().Mark(m))
	}
	switch {
	case f.tdcInDoubt():
		parts = append(parts, "Before you suspect a part, make sure of TDC and of what the nominal angles count from.")
	case outside > fewMarks:
		parts = append(parts, "Do not time the engine by the marks that are outside.")
	}
	return parts
}

// fewMarks is as many as are each worth a sentence.
const fewMarks = 2
