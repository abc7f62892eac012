package find

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/finding"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/mark"
)

// marks adds the marks as they are by true TDC.
func (f Answer) marks(d *doc.Document, draw drawing) {
	if len(f.Marks)+len(f.Measured)+len(f.Again) == 0 {
		return
	}
	d.Section("The marks against true TDC")
	if len(f.Marks) > 0 {
		draw.figure(d, picture.Marks, captions[picture.Marks])
	}
	f.markTables(d)
	if len(f.Marks) > 0 {
		d.SayAs(doc.Quiet, "Crank degrees; late (retarded) is positive, early (advanced) negative. A mark is called only when its whole 95 % interval lies on one side of its limit.")
	}
	for _, m := range f.Called(mark.TooClose) {
		d.Say(fmt.Sprintf("%s: it could be called if known to ± %s deg.", m.Name, words.Fixed(m.Settles.Degrees(), max(1, words.Decimals(m.Expanded.Degrees())))))
	}
	if len(f.Measured) > 0 {
		d.SayAs(doc.Quiet, onlyMeasured)
	}
}

func (f Answer) measuredTable() doc.Table {
	t := doc.Table{Caption: "Marks only measured", Header: []string{"Only measured, crank deg", "at", "± (95 %)"}}
	for _, m := range f.Measured {
		places := words.Decimals(m.Expanded.Degrees())
		t.Rows = append(t.Rows, []string{m.Name, words.Fixed(m.Position.Degrees(), places), words.Fixed(m.Expanded.Degrees(), places)})
	}
	return t
}

// onlyMeasured is said of marks whose should_be is unknown.
const onlyMeasured = "Crank degrees after TDC, or from the member that each was measured against. What they should be is unknown, so they are not judged. On an engine known to be healthy, evendrop keep makes them the figures to compare others with."

// markNotes is what to bear in mind of the marks. What an offset may make of
// several is said once, and not at all where the marks point to TDC, of which it
// is said then.
func (f Answer) markNotes() []string {
	notes := slices.Clone(f.Again)
	for _, m := range f.Marks {
		for _, n := range m.Notes {
			if _, offset := n.(finding.OffsetMakes); !offset || !f.TDCInDoubt() {
				notes = append(notes, n)
			}
		}
	}
	var list []string
	for _, n := range finding.Together(notes) {
		list = append(list, f.Bench().Named(n))
	}
	return list
}

func (f Answer) markTable() doc.Table {
	t := doc.Table{Caption: "The marks", Header: []string{"Mark, crank deg", "read", "should be", "off by", "± (95 %)", "limit", "verdict"}}
	for _, m := range f.Marks {
		places := words.Decimals(m.Expanded.Degrees())
		position, nominal, limit := "", "", ""
		if found.Located(m) {
			position, nominal = words.Fixed(m.Position.Degrees(), places), words.Fixed(m.Nominal.Degrees(), places)
		}
		if m.HasLimit {
			limit = words.Plain(m.Limit.Degrees())
		}
		t.Add(picture.States[m.Verdict], m.Name, position, nominal, words.Signed(m.Angle.Degrees(), places), words.Fixed(m.Expanded.Degrees(), places), limit, string(m.Verdict))
	}
	return t
}

// against says where the table's should be is from.
func (f Answer) against() string {
	var own []string
	for _, m := range f.Marks {
		if !m.AgainstHealthy() {
			own = append(own, m.Name)
		}
	}
	text := fmt.Sprintf("The figures to compare with are what %s showed (%s), and their uncertainty is in the ±.",
		words.Count(len(f.Against.From), "healthy engine"), filepath.Base(f.Against.File))
	if len(f.Against.From) == 1 {
		text += " How much healthy engines differ is not: keep several for that."
	}
	if slices.ContainsFunc(f.Against.From, func(c knowngood.Condition) bool { return c.Of(f.Job, f.Results[0]) }) {
		text += " This job is one of those that the file was made from, so it can only agree with itself: this tests nothing."
	}
	if len(own) > 0 {
		text += fmt.Sprintf(" Not in that file, and compared with should_be: %s.", strings.Join(own, ", "))
	}
	return text
}
