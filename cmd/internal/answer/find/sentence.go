package find

import (
	"fmt"
	"strings"

	"evendrop/cmd/internal/answer/find/budget"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/mark"
)

// sentence is what a person can act on: where TDC is, what the marks come to, and
// what not to do.
func (f Answer) sentence() string {
	parts := f.againstTurn()
	for i, r := range f.Results {
		if i == 0 && !r.AgainstTurn() || r.CannotTell != nil && !r.AgainstTurn() {
			parts = append(parts, f.where(r))
		}
	}
	parts = append(parts, f.earlierUntold()...)
	parts = append(parts, f.throwSentences()...)
	if text := f.Headline(); text != "" {
		parts = append(parts, text)
	}
	if never := f.Never(); never != "" {
		parts = append(parts, never)
	}
	return strings.Join(parts, " ")
}

// againstTurn says, before all else, of each cylinder whose readings go against their
// turn that nothing can be called late or early, and what to type.
func (f Answer) againstTurn() (parts []string) {
	for _, last := range f.Results {
		for _, r := range last.Sets() {
			if r.AgainstTurn() {
				parts = append(parts, f.nearOnly(last, r))
			}
		}
	}
	return parts
}

// nearOnly says of a cylinder's set what to type, and that its TDC is no more than near.
func (f Answer) nearOnly(last, r tdc.Result) string {
	its := ""
	if f.several() {
		its = fmt.Sprintf("cylinder %d's ", r.Number)
	}
	return fmt.Sprintf("%s. Until then %sTDC is only known to be near %s deg on the protractor.",
		words.Capital(f.named(r, found.InSet(last, r, f.Untold(r)))), its, f.reads(r.TDC.Angle, min(words.Decimals(r.TDC.Expanded.Degrees()), 1)))
}

// where says where TDC is, or that it cannot be told.
func (f Answer) where(r tdc.Result) string {
	at := fmt.Sprintf("at %s on the protractor%s (95 %%)", f.Bench().ReadsWithin(r.TDC), asSet(r))
	of := ""
	if f.several() {
		of = fmt.Sprintf(" of cylinder %d", r.Number)
	}
	if r.CannotTell != nil {
		text := fmt.Sprintf("True TDC%s cannot be determined from these readings: %s. Do not rely on the figures below, which put it %s. "+
			"Check what was typed, the engine's dimensions and the set-up, and read both flanks again.", of, f.Untold(r), at)
		if r.Number == f.Results[0].Number && len(f.Job.Marks)+len(f.Job.Lobes) > 0 {
			text += " No mark is judged by it."
		}
		return text
	}
	at += f.agreeTo(r)
	if f.several() {
		return fmt.Sprintf("Cylinder %d's true TDC is %s.", r.Number, at)
	}
	return fmt.Sprintf("True TDC is %s.", at)
}

// asSet is since when the protractor shows a TDC: of which set it is, where there are
// several, or after which reading the protractor moved.
func asSet(r tdc.Result) string {
	if after := r.MovedAfter(); after > 0 {
		return fmt.Sprintf(" as it stands since it moved, after reading %d", after)
	}
	if len(r.Earlier) == 0 {
		return ""
	}
	return fmt.Sprintf(" as it is set now, in set %d", r.Set)
}

// earlierUntold says that an earlier set does not tell TDC, by which no mark is judged.
func (f Answer) earlierUntold() (parts []string) {
	for i, last := range f.Results {
		for _, r := range last.Earlier {
			if r.CannotTell == nil || r.AgainstTurn() {
				continue
			}
			text := f.named(last, fmt.Sprintf("TDC of set %d cannot be determined from its readings: %s.", r.Set, f.Untold(r)))
			if i == 0 && len(f.Job.Marks)+len(f.Job.Lobes) > 0 {
				text += fmt.Sprintf(" No mark is judged: correct its readings or read it again, or leave set %d and its marks out.", r.Set)
			}
			parts = append(parts, text)
		}
	}
	return parts
}

// agreeTo is what the readings agree to, to stand after the interval that has the
// protractor's own error in it; nothing where that makes no difference.
func (f Answer) agreeTo(r tdc.Result) string {
	whole, readings := words.WithinDegrees(r.TDC.Expanded), words.WithinDegrees(r.AgreeTo.Expanded)
	if whole == readings {
		return ""
	}
	return fmt.Sprintf("; the readings agree to %s, the rest is %s", readings, f.rest(r))
}

// rest is what makes TDC less sure than the readings agree: what may have moved is named
// where it is the more of it.
func (f Answer) rest(r tdc.Result) string {
	var rest []string
	if own := f.Job.Setup.Protractor.Error; own > 0 {
		rest = append(rest, "the protractor's own error of "+words.Plain(own.Degrees()))
	}
	if len(rest) == 0 || budget.Part(r, adjust.MovedSource) > budget.Part(r, adjust.ScaleError) {
		rest = append(rest, "what may have moved while they were taken")
	}
	return words.And(rest)
}

// MarkSentences is what to make of each mark. A mark among many that is as it
// should be, or cannot be judged, stays in the table, and so do many that are all
// outside.
func (f Answer) MarkSentences() []string {
	var parts []string
	few := len(f.Marks) <= fewMarks
	manyOutside := len(f.Called(mark.Outside)) > fewMarks
	for _, m := range f.Marks {
		if m.Verdict == mark.Outside && manyOutside || !few && (m.Verdict == mark.Within || m.Verdict == mark.NoLimitSaid) {
			continue
		}
		parts = append(parts, f.Bench().Mark(m))
	}
	return parts
}

// fewMarks is as many as are each worth a sentence.
const fewMarks = 2
