package find

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// marks adds the table of marks, what they point to and what would tell more.
func (f Answer) marks(d *doc.Document) {
	if len(f.Marks) == 0 {
		return
	}
	d.Table(f.markTable())
	if f.Against != nil {
		d.Say(f.against())
	}
	if notes := f.markNotes(); len(notes) > 0 {
		d.List(notes)
	}
	f.pointsTo(d)
}

// measured adds the marks that nobody said what they should be.
func (f Answer) measured(d *doc.Document) {
	if len(f.Measured) > 0 {
		d.Table(f.measuredTable())
		d.Say(onlyMeasured)
	}
}

func (f Answer) measuredTable() doc.Table {
	t := doc.Table{Header: []string{"Only measured, crank deg", "at", "± (95 %)"}}
	for _, m := range f.Measured {
		places := words.Decimals(m.Expanded.Degrees())
		t.Rows = append(t.Rows, []string{m.Name, words.Fixed(m.Position.Degrees(), places), words.Fixed(m.Expanded.Degrees(), places)})
	}
	return t
}

// onlyMeasured is said of marks whose should_be is unknown.
const onlyMeasured = "What they should be is unknown, so they are not judged. On an engine known to be healthy, evendrop keep makes them the figures to hold others against."

// markNotes is what to bear in mind of the marks. What an offset may make of
// several is said once, and not at all where the marks point to TDC, of which it
// is said then.
func (f Answer) markNotes() []string {
	var notes []finding.Finding
	for _, m := range f.Marks {
		for _, n := range m.Notes {
			if _, offset := n.(finding.OffsetMakes); !offset || !f.tdcInDoubt() {
				notes = append(notes, n)
			}
		}
	}
	var list []string
	for _, n := range finding.Together(notes) {
		list = append(list, f.bench().Named(n))
	}
	return list
}

// findings is what was found of the marks and of what they point to.
func (f Answer) findings() []finding.Finding {
	var list []finding.Finding
	for _, m := range f.AllMarks() {
		list = append(list, m.Findings()...)
	}
	for _, e := range f.Diagnosis.Explanations {
		for _, s := range e.Slips {
			list = append(list, s.Notes...)
		}
	}
	return list
}

// located tells whether a mark has a place to show, rather than a shift alone.
func located(m mark.Judged) bool {
	return m.Off == nil || m.Healthy != nil || m.Unknown || m.ShouldBe != 0
}

func (f Answer) markTable() doc.Table {
	t := doc.Table{Header: []string{"Mark, crank deg", "read", "should be", "off by", "± (95 %)", "limit", "verdict"}}
	for _, m := range f.Marks {
		places := words.Decimals(m.Expanded.Degrees())
		position, nominal, limit := "", "", ""
		if located(m) {
			position, nominal = words.Fixed(m.Position.Degrees(), places), words.Fixed(m.Nominal.Degrees(), places)
		}
		if m.HasLimit {
			limit = words.Plain(m.Limit.Degrees())
		}
		t.Rows = append(t.Rows, []string{
			m.Name, position, nominal, words.Signed(m.Angle.Degrees(), places), words.Fixed(m.Expanded.Degrees(), places), limit, string(m.Verdict),
		})
	}
	return t
}

// against says where the table's should be is from.
func (f Answer) against() string {
	var own []string
	for _, m := range f.Marks {
		if m.Healthy == nil {
			own = append(own, m.Name)
		}
	}
	text := fmt.Sprintf("What the marks should be is what %s showed (%s), and its uncertainty is in the ±.",
		words.Count(len(f.Against.From), "healthy engine"), filepath.Base(f.Against.File))
	if len(f.Against.From) == 1 {
		text += " How healthy engines differ among themselves is not: keep several for that."
	}
	if slices.ContainsFunc(f.Against.From, func(c job.Condition) bool { return c.Of(f.Job, f.Results[0]) }) {
		text += " It was made of this very job among them, which can only agree with itself: this is no test."
	}
	if len(own) > 0 {
		text += fmt.Sprintf(" Not in that file, and held against should_be: %s.", strings.Join(own, ", "))
	}
	return text
}
