package find

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// Find is the answer of the main job.
type Answer struct {
	Job      job.Job
	Results  []tdc.Result   // one a cylinder
	Trials   []tdc.Trials   // one a cylinder, or none
	Throws   []tdc.Throw    // one a cylinder, when there are several
	Index    tdc.Index      // of the wheel, by the throws
	Marks    []mark.Finding // against cylinder 1
	Measured []mark.Finding // marks that nobody said what they should be
	// Diagnosis is what the marks point to.
	Diagnosis mark.Diagnosis
	Against   *job.KnownGood // what the marks are held against; nil without
	// EveryReading asks for the table of readings in text and Markdown.
	EveryReading bool
}

// AllMarks is the marks that are judged and those that are only measured.
func (f Answer) AllMarks() []mark.Finding { return slices.Concat(f.Marks, f.Measured) }

// document puts the answer in the order a person at a bench wants it: what was
// found, then why.
func (f Answer) document() doc.Document {
	var d doc.Document
	if f.Job.Title != "" {
		d.Section(f.Job.Title)
	}
	d.Say(f.sentence())
	for i, r := range f.Results {
		f.cylinder(&d, r)
		if i < len(f.Trials) {
			d.Say(f.trials(f.Trials[i]))
		}
	}
	f.throws(&d)
	f.marks(&d)
	f.measured(&d)
	for _, r := range f.Results {
		if len(r.Warnings) > 0 {
			d.List(f.Warnings(r))
		}
	}
	d.Say(f.cautions(d))
	return d
}

// cautions is the caution under the answer, with those for what it used or asks for.
func (f Answer) cautions(d doc.Document) string {
	var more []string
	if slices.ContainsFunc(f.Job.Cylinders, func(c evidence.Cylinder) bool { return len(c.Stops) > 0 }) {
		more = append(more, caution.Stop)
	}
	if tells(d, "turn back") || tells(d, "turn the engine back") {
		more = append(more, caution.Back)
	}
	return caution.With(more...)
}

// cylinder adds one cylinder's methods, agreement and budget.
func (f Answer) cylinder(d *doc.Document, r tdc.Result) {
	if len(f.Results) > 1 {
		d.Section(fmt.Sprintf("Cylinder %d", r.Number))
	}
	d.Table(f.methodTable(r))
	for _, text := range ofMethods(r) {
		d.Say(text)
	}
	d.Table(BudgetTable(r))
	d.Say(Greatest(r))
	if text := f.goBack(r); text != "" {
		d.Say(text)
	}
	if f.EveryReading {
		d.Table(f.readingTable(r))
	}
}

func (f Answer) Warnings(r tdc.Result) []string {
	var list []string
	for _, w := range r.Warnings {
		if len(f.Results) > 1 {
			w = fmt.Sprintf("Cylinder %d: %s", r.Number, w)
		}
		list = append(list, w)
	}
	return list
}

// shown is a crank angle as the job's protractor shows it.
func (f Answer) Shown(a geometry.Angle) geometry.Angle { return f.Job.Setup.Protractor.Shows(a) }

// reads writes an angle as the protractor shows it, with its side where the
// scale needs one.
func (f Answer) Reads(a geometry.Angle, places int) string {
	shown := f.Shown(a).Degrees()
	if !f.Job.Setup.Protractor.BySide() {
		if f.Job.Setup.Protractor.Scale >= evidence.Full && math.Abs(shown-360) < math.Pow10(-places)/2 {
			shown = 0
		}
		return words.Fixed(shown, places)
	}
	if text := words.Fixed(math.Abs(shown), places); shown < 0 {
		return text + " BTDC"
	} else {
		return text + " ATDC"
	}
}

func (f Answer) methodTable(r tdc.Result) doc.Table {
	t := doc.Table{Header: []string{"Method", "TDC at, deg", "± (95 %)", "readings"}}
	for _, m := range r.Methods {
		places := words.Decimals(m.Expanded.Degrees())
		t.Rows = append(t.Rows, []string{m.Name, f.Reads(m.Angle, places), words.Fixed(m.Expanded.Degrees(), places), strconv.Itoa(m.Readings)})
	}
	return t
}

func BudgetTable(r tdc.Result) doc.Table {
	t := doc.Table{Header: []string{"What the uncertainty is made of", "deg"}}
	for _, c := range r.Budget {
		if c.Angle.Degrees() >= 0.0005 {
			t.Rows = append(t.Rows, []string{c.Source, words.Fixed(c.Angle.Degrees(), 3)})
		}
	}
	t.Rows = append(t.Rows, []string{"together, standard uncertainty", words.Fixed(r.TDC.Uncertainty.Degrees(), 3)})
	return t
}

func (f Answer) readingTable(r tdc.Result) doc.Table {
	t := doc.Table{Header: []string{"Line", "turn", "angle, deg", "depth, mm", "residual, mm", "weight", "suspect"}}
	var angles, depths []float64
	for _, j := range r.Readings {
		angles, depths = append(angles, j.Angle.Degrees()), append(depths, j.Depth.Millimetres())
	}
	angle := words.AsRead(angles, f.Job.Setup.Protractor.Step.Degrees())
	depth := words.AsRead(depths, f.Job.Setup.Gauge.Step.Millimetres())
	for _, j := range r.Readings {
		suspect := ""
		if j.Suspect {
			suspect = "suspect"
		}
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(j.Line), j.Turn.String(), f.Reads(j.Angle, angle),
			words.Fixed(f.Job.Setup.Gauge.Falling(j.Depth).Millimetres(), depth), words.Signed(j.Residual.Millimetres(), depth+1), words.Fixed(j.Weight, 2), suspect,
		})
	}
	return t
}

// Text is the answer in lines of up to width characters.
func (f Answer) Text(width int) ([]byte, error) { return form.Terminal(f.document(), width) }

// Markdown is the answer as Markdown.
func (f Answer) Markdown() ([]byte, error) { return form.Markdown(f.document()) }

// Strict tells whether a mark, a throw or a crown is outside or too close to call,
// or TDC cannot be told to judge them by.
func (f Answer) Strict() bool {
	if slices.ContainsFunc(f.Results, CannotTell) {
		return true
	}
	for _, t := range f.Throws {
		if crank, crown := f.throwVerdicts(t); bad(crank) || bad(crown) {
			return true
		}
	}
	for _, m := range f.Marks {
		if bad(m.Verdict) {
			return true
		}
	}
	return false
}

func bad(v mark.Verdict) bool { return v == mark.Outside || v == mark.TooClose }
