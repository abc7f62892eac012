// Package find is the main job's answer: where TDC is, how sure that is, what the
// marks are by it and what they point to; as a document, as data and as pictures.
package find

import (
	"fmt"

	"evendrop/cmd/internal/answer/find/data"
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/job"
)

// Answer is what was found, and how much of it is to be said.
type Answer struct {
	found.All
	// Details asks text and Markdown for everything, EveryReading for the table of
	// readings.
	Details, EveryReading bool
	OnPage                bool // of the bench, which has no commands to name
}

// Of is the main job: TDC of every cylinder, the marks against the first one's, and
// the cylinders against one another. An error names the cylinder, mark or lobe that has no
// answer.
func Of(j job.Job) (Answer, error) { return Against(j, "") }

// OfBy is Of with TDC found by another that knows it. It errs as Of does.
func OfBy(j job.Job, by found.Finder) (Answer, error) {
	all, err := found.OfBy(j, by)
	return Answer{All: all}, err
}

// Against is Of with the marks of a known-good file in place of the job's nominal
// angles; Of without a file. An error is Of's, of a file that cannot be read, of a mark that
// is not the same in both, and of a job none of whose marks and lobes the file has.
func Against(j job.Job, file string) (Answer, error) {
	all, err := found.Against(j, file)
	return Answer{All: all}, err
}

// JSON is the answer as JSON.
func (f Answer) JSON() ([]byte, error) { return data.JSON(f.All, f.Headline()) }

// CSV is the answer as one table: TDC, the methods, the marks and the lobes.
func (f Answer) CSV() ([]byte, error) { return data.CSV(f.All) }

// reads is a crank angle as the job's protractor shows it, with its side where the scale
// needs one.
func (f Answer) reads(a geometry.Angle, places int) string { return f.Bench().Reads(a, places) }

// several tells whether a cylinder has to be named.
func (f Answer) several() bool { return len(f.Results) > 1 }

// Warnings is what weakens a cylinder's answer, each a sentence with what to do.
func (f Answer) Warnings(last tdc.Result) (list []string) {
	for _, r := range last.Sets() {
		for _, text := range f.Bench().Findings(r.Findings) {
			if len(last.Earlier) > 0 {
				text = words.Capital(found.InSet(last, r, text))
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
func (f Answer) Text(width int) ([]byte, error) {
	return form.Terminal(f.document(f.Details, f.plotted(width)), width)
}

// Markdown is the answer as Markdown.
func (f Answer) Markdown() ([]byte, error) { return form.Markdown(f.Document(f.Details)) }
