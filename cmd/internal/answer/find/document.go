package find

import (
	"fmt"
	"slices"

	"evendrop/cmd/internal/answer/find/budget"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// Document is the answer in the order that a person at a bench wants it: what was
// found, then why. Without details it fits a screen.
func (f Answer) Document(details bool) doc.Document {
	return f.document(details, f.plotted(form.Widest))
}

// document is the same, its figures drawn by draw.
func (f Answer) document(details bool, draw drawing) doc.Document {
	d := f.head()
	if details {
		d.Add(f.full(draw)...)
	} else {
		d.Add(f.short()...)
	}
	d.SayAs(doc.Caution, f.cautions(details))
	return d
}

// head is what was found, and what to look at first.
func (f Answer) head() doc.Document {
	var d doc.Document
	d.Title(f.Job.Title)
	d.Add(f.said()...)
	return d
}

// said is what was found.
func (f Answer) said() doc.Document {
	var d doc.Document
	d.SayAs(doc.Finding, f.sentence())
	d.List(f.MarkSentences())
	d.List(f.Bench().Findings(f.Diagnosis.Notes))
	d.Say(f.lookFirst())
	return d
}

// short is what goes with the finding on one screen.
func (f Answer) short() doc.Document {
	var d doc.Document
	d.ListAs(doc.Warning, f.warnings())
	if !f.several() {
		d.Table(f.methodTable(f.Results[0]))
	}
	for i, r := range f.Results {
		d.Say(f.named(r, disagreement(r)))
		f.asked(&d, i)
	}
	d.Table(f.throwTable())
	d.SayAs(doc.Quiet, f.comparedIn())
	f.markTables(&d)
	d.SayAs(doc.Quiet, "How sure, what else it may be, a check at the bench, and where to set the pointer: add --details.")
	return d
}

// asked adds what only a flag asks for.
func (f Answer) asked(d *doc.Document, n int) {
	if f.EveryReading {
		for _, r := range f.Results[n].Sets() {
			d.Table(f.readingTable(r, len(f.Results[n].Earlier) > 0))
		}
	}
	if n < len(f.Trials) {
		d.Say(f.trials(f.Trials[n]))
	}
}

// markTables adds the tables of marks and what to bear in mind of them.
func (f Answer) markTables(d *doc.Document) {
	d.Table(f.markTable())
	if f.Against != nil && len(f.Marks) > 0 {
		d.Say(f.against())
	}
	d.List(f.markNotes())
	d.Table(f.measuredTable())
}

// full is everything there is to say. A figure is drawn by draw, or left out.
func (f Answer) full(draw drawing) doc.Document {
	var d doc.Document
	if list := f.warnings(); len(list) > 0 {
		d.Section("Warnings")
		d.ListAs(doc.Warning, list)
	}
	f.marks(&d, draw)
	f.pointsTo(&d, draw)
	f.lobes(&d, draw)
	f.throws(&d, draw)
	for i := range f.Results {
		f.cylinder(&d, i, draw)
	}
	d.Section("What was used")
	d.Add(f.used())
	f.statistics(&d)
	return d
}

// cylinder adds one cylinder's methods, what there is to say of them, the check at
// the bench and the budget.
func (f Answer) cylinder(d *doc.Document, n int, draw drawing) {
	r := f.Results[n]
	d.Section(f.named(r, "Where the piston turns round"))
	draw.readings(d, f, n)
	d.Table(f.methodTable(r))
	d.List(f.earlier(r))
	for _, text := range f.ofMethods(r) {
		d.Say(text)
	}
	for _, text := range f.check(r) {
		d.Say(text)
	}
	d.Part("How sure")
	d.Say(budget.InWords(r))
	d.Table(budget.Table(r))
	if n == 0 { // said once
		d.SayAs(doc.Quiet, "Standard uncertainties; their squares add up.")
	}
	if f.EveryReading && len(r.Readings) > 0 {
		d.Part("Every reading")
	}
	f.asked(d, n)
}

// earlier is where TDC stood on the protractor before it was moved, a line a set.
func (f Answer) earlier(last tdc.Result) (list []string) {
	for _, r := range last.Earlier {
		list = append(list, fmt.Sprintf("Set %d, before the protractor was moved: TDC at %s (95 %%), by %s.",
			r.Set, f.Bench().ReadsWithin(r.TDC), words.Count(len(r.Readings), "reading")))
	}
	return list
}

// named is a text with its cylinder before it where there are several; nothing of
// nothing.
func (f Answer) named(r tdc.Result, text string) string {
	if f.several() && text != "" {
		return fmt.Sprintf("Cylinder %d: %s", r.Number, text)
	}
	return text
}

// warnings is what weakens the answer, of every cylinder and lobe.
func (f Answer) warnings() (list []string) {
	for _, r := range f.Results {
		list = append(list, f.Warnings(r)...)
	}
	return append(list, f.lobeWarnings()...)
}

// cautions is the caution under the answer, with those for what it used or asks for.
func (f Answer) cautions(details bool) string {
	var more []string
	if slices.ContainsFunc(f.Job.Cylinders, func(c evidence.Cylinder) bool { return len(c.Stops) > 0 }) {
		more = append(more, caution.Stop)
	}
	if len(f.Job.Lobes) > 0 {
		more = append(more, caution.Lobe)
	}
	if slices.ContainsFunc(f.Results, asksToTurnBack) || details && slices.ContainsFunc(f.Results, turnsBack) {
		more = append(more, caution.Back)
	}
	if f.OnPage {
		return caution.OnPage(more...)
	}
	return caution.With(more...)
}

// asksToTurnBack tells whether what is found of any of its sets asks for it.
func asksToTurnBack(r tdc.Result) bool {
	return slices.ContainsFunc(r.Sets(), func(r tdc.Result) bool { return finding.TurnsBack(r.Findings) })
}

// turnsBack tells whether the details ask for it: of lash in the midpoints, or of what
// turning back would shrink.
func turnsBack(r tdc.Result) bool {
	lash := r.Trend.Pattern == halve.LikeLash && r.Trend.Lash.Value >= 0 && oneWay(r)
	return lash || slices.Contains([]string{adjust.LashSource, adjust.EyeLag}, budget.Greatest(r))
}
