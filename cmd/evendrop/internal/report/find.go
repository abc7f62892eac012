package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// Find is the answer of the main job.
type Find struct {
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
func (f Find) AllMarks() []mark.Finding { return slices.Concat(f.Marks, f.Measured) }

// document puts the answer in the order a person at a bench wants it: what was
// found, then why.
func (f Find) document() document {
	var d document
	if f.Job.Title != "" {
		d.heading(f.Job.Title)
	}
	d.paragraph(f.sentence())
	for i, r := range f.Results {
		f.cylinder(&d, r)
		if i < len(f.Trials) {
			d.paragraph(f.trials(f.Trials[i]))
		}
	}
	f.throws(&d)
	f.marks(&d)
	f.measured(&d)
	for _, r := range f.Results {
		if len(r.Warnings) > 0 {
			d.bullets(f.warnings(r))
		}
	}
	d.paragraph(f.cautions(d))
	return d
}

// cautions is the caution under the answer, with those for what it used or asks for.
func (f Find) cautions(d document) string {
	var more []string
	if slices.ContainsFunc(f.Job.Cylinders, func(c tdc.Cylinder) bool { return len(c.Stops) > 0 }) {
		more = append(more, stopCaution)
	}
	if d.says("turn back") || d.says("turn the engine back") {
		more = append(more, backCaution)
	}
	return cautioned(more...)
}

// cylinder adds one cylinder's methods, agreement and budget.
func (f Find) cylinder(d *document, r tdc.Result) {
	if len(f.Results) > 1 {
		d.heading(fmt.Sprintf("Cylinder %d", r.Number))
	}
	d.table(f.methodTable(r))
	for _, text := range ofMethods(r) {
		d.paragraph(text)
	}
	d.table(budgetTable(r))
	d.paragraph(greatest(r))
	if text := f.goBack(r); text != "" {
		d.paragraph(text)
	}
	if f.EveryReading {
		d.table(f.readingTable(r))
	}
}

func (f Find) warnings(r tdc.Result) []string {
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
func (f Find) shown(a geometry.Angle) geometry.Angle { return f.Job.Setup.Protractor.Shows(a) }

// reads writes an angle as the protractor shows it, with its side where the
// scale needs one.
func (f Find) reads(a geometry.Angle, places int) string {
	shown := f.shown(a).Degrees()
	if !f.Job.Setup.Protractor.BySide() {
		if f.Job.Setup.Protractor.Scale >= tdc.Full && math.Abs(shown-360) < math.Pow10(-places)/2 {
			shown = 0
		}
		return fixed(shown, places)
	}
	if text := fixed(math.Abs(shown), places); shown < 0 {
		return text + " BTDC"
	} else {
		return text + " ATDC"
	}
}

func (f Find) methodTable(r tdc.Result) table {
	t := table{header: []string{"Method", "TDC at, deg", "± (95 %)", "readings"}}
	for _, m := range r.Methods {
		places := decimals(m.Expanded.Degrees())
		t.rows = append(t.rows, []string{m.Name, f.reads(m.Angle, places), fixed(m.Expanded.Degrees(), places), strconv.Itoa(m.Readings)})
	}
	return t
}

func budgetTable(r tdc.Result) table {
	t := table{header: []string{"What the uncertainty is made of", "deg"}}
	for _, c := range r.Budget {
		if c.Angle.Degrees() >= 0.0005 {
			t.rows = append(t.rows, []string{c.Source, fixed(c.Angle.Degrees(), 3)})
		}
	}
	t.rows = append(t.rows, []string{"together, standard uncertainty", fixed(r.TDC.Uncertainty.Degrees(), 3)})
	return t
}

func (f Find) readingTable(r tdc.Result) table {
	t := table{header: []string{"Line", "turn", "angle, deg", "depth, mm", "residual, mm", "weight", "suspect"}}
	var angles, depths []float64
	for _, j := range r.Readings {
		angles, depths = append(angles, j.Angle.Degrees()), append(depths, j.Depth.Millimetres())
	}
	angle := asRead(angles, f.Job.Setup.Protractor.Step.Degrees())
	depth := asRead(depths, f.Job.Setup.Gauge.Step.Millimetres())
	for _, j := range r.Readings {
		suspect := ""
		if j.Suspect {
			suspect = "suspect"
		}
		t.rows = append(t.rows, []string{
			strconv.Itoa(j.Line), j.Turn.String(), f.reads(j.Angle, angle),
			fixed(f.Job.Setup.Gauge.Falling(j.Depth).Millimetres(), depth), signed(j.Residual.Millimetres(), depth+1), fixed(j.Weight, 2), suspect,
		})
	}
	return t
}

// Text is the answer for a terminal.
func (f Find) Text() ([]byte, error) { return f.document().text() }

// Markdown is the answer as Markdown.
func (f Find) Markdown() ([]byte, error) { return f.document().markdown() }

// Strict tells whether a mark, a throw or a crown is outside or too close to call,
// or TDC cannot be told to judge them by.
func (f Find) Strict() bool {
	if slices.ContainsFunc(f.Results, cannotTell) {
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
