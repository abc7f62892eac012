// Package find is the main job's answer: where TDC is, how sure that is, what the
// marks are by it and what they point to; as a document, as data and as pictures.
package find

import (
	"fmt"
	"slices"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/healthy"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// Answer is what was found.
type Answer struct {
	Job      job.Job
	Results  []tdc.Result       // one a cylinder
	Trials   []adjust.Trials    // one a cylinder, or none
	Throws   []mark.JudgedThrow // one a cylinder, when there are several
	Index    tdc.Index          // of the wheel, by the throws
	Marks    []mark.Judged      // against cylinder 1
	Measured []mark.Judged      // marks that nobody said what they should be
	// Again is about the marks that have to be read again, for the protractor moved.
	Again []finding.Finding
	Lobes []lobe.Measured // each a mark as well, where it says where its cam stands
	// LobePairs are the lobes of each cylinder, an exhaust with an inlet.
	LobePairs []LobePair
	// Diagnosis is what the marks point to.
	Diagnosis joint.Diagnosis
	Against   *job.KnownGood // what the marks are compared with; nil without
	healthy   []healthy.Kept // that lobes are compared with; none without Against
	// Details asks text and Markdown for everything, EveryReading for the table of
	// readings.
	Details, EveryReading bool
}

// AllMarks is the marks that are judged and those that are only measured.
func (f Answer) AllMarks() []mark.Judged { return slices.Concat(f.Marks, f.Measured) }

// bench is how the job shows angles and lengths.
func (f Answer) bench() words.Bench { return words.NewBench(f.Job.Setup, f.Job.Unit) }

// Shown is a crank angle as the job's protractor shows it.
func (f Answer) Shown(a geometry.Angle) geometry.Angle { return f.Job.Setup.Protractor.Shows(a) }

// Reads is the same in words, with its side where the scale needs one.
func (f Answer) Reads(a geometry.Angle, places int) string { return f.bench().Reads(a, places) }

// several tells whether a cylinder has to be named.
func (f Answer) several() bool { return len(f.Results) > 1 }

// Untold is why a cylinder's TDC is no answer to go by; "" when it is one.
func (f Answer) Untold(r tdc.Result) string { return f.bench().Untold(r.CannotTell) }

// Warnings is what weakens a cylinder's answer, each a sentence with what to do.
func (f Answer) Warnings(last tdc.Result) (list []string) {
	for _, r := range last.Sets() {
		for _, text := range f.bench().Findings(r.Findings) {
			if len(last.Earlier) > 0 {
				text = words.Capital(inSet(last, r, text))
			}
			if f.several() {
				text = fmt.Sprintf("Cylinder %d: %s", r.Number, text)
			}
			list = append(list, text)
		}
	}
	return list
}

// Text is the answer in lines of up to width characters.
func (f Answer) Text(width int) ([]byte, error) { return form.Terminal(f.Document(f.Details), width) }

// Markdown is the answer as Markdown.
func (f Answer) Markdown() ([]byte, error) { return form.Markdown(f.Document(f.Details)) }
