package report

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// marks adds the table of marks, what they point to and what would tell more.
func (f Find) marks(d *document) {
	if len(f.Marks) == 0 {
		return
	}
	d.table(f.markTable())
	if f.Against != nil {
		d.paragraph(f.against())
	}
	var notes []string
	for _, m := range f.Marks {
		for _, n := range m.Notes {
			if strings.HasPrefix(n, "Off by") && f.tdcInDoubt() {
				continue // said once, of TDC
			}
			notes = append(notes, m.Name+": "+n)
		}
	}
	if len(notes) > 0 {
		d.bullets(notes)
	}
	f.pointsTo(d)
}

func (f Find) markTable() table {
	t := table{header: []string{"Mark, crank deg", "read", "should be", "off by", "± (95 %)", "limit", "verdict"}}
	for _, m := range f.Marks {
		places := decimals(m.Expanded.Degrees())
		position, nominal, limit := "", "", ""
		if m.Off == nil || m.Healthy != nil {
			position, nominal = fixed(m.Position.Degrees(), places), fixed(m.Nominal.Degrees(), places)
		}
		if m.HasLimit {
			limit = plain(m.Limit.Degrees())
		}
		t.rows = append(t.rows, []string{
			m.Name, position, nominal, signed(m.Angle.Degrees(), places), fixed(m.Expanded.Degrees(), places), limit, string(m.Verdict),
		})
	}
	return t
}

// against says where the table's should be is from.
func (f Find) against() string {
	var own []string
	for _, m := range f.Marks {
		if m.Healthy == nil {
			own = append(own, m.Name)
		}
	}
	text := fmt.Sprintf("What the marks should be is what %s showed (%s), and its uncertainty is in the ±.",
		counted(len(f.Against.From), "healthy engine"), filepath.Base(f.Against.File))
	if len(own) > 0 {
		text += fmt.Sprintf(" Not in that file, and held against should_be: %s.", strings.Join(own, ", "))
	}
	return text
}

// headline is the finding that a person acts on, in one sentence; empty without
// marks.
func (f Find) headline() string {
	var outside, close []mark.Finding
	limits := 0
	for _, m := range f.Marks {
		switch m.Verdict {
		case mark.Outside:
			outside = append(outside, m)
		case mark.TooClose:
			close = append(close, m)
		}
		if m.HasLimit {
			limits++
		}
	}
	d := f.Diagnosis
	switch {
	case len(f.Marks) == 0:
		return ""
	case len(outside) > 0:
		return are(outside, len(f.Marks)) + " outside " + its(outside) + ", " + pointing(d)
	case d.Tried > 0 || d.Explanations == nil:
		return "No mark is outside its limit, " + strings.Replace(pointing(d), "which points", "but together they point", 1)
	case len(close) > 0:
		return are(close, len(f.Marks)) + " too close to " + its(close) + " to call."
	case limits == len(f.Marks):
		return "Every mark is within its limit, and nothing need have moved."
	}
	return "Nothing need have moved to make the marks what they are."
}

// are is the marks and their verb: "The notch is", "2 of 6 marks are".
func are(marks []mark.Finding, of int) string {
	if len(marks) == 1 {
		return fmt.Sprintf("The %s is", marks[0].Name)
	}
	return fmt.Sprintf("%d of %d marks are", len(marks), of)
}

func its(marks []mark.Finding) string {
	if len(marks) == 1 {
		return "its limit"
	}
	return "their limits"
}

// pointing goes on from a finding: what it points to.
func pointing(d mark.Diagnosis) string {
	switch {
	case len(d.Explanations) == 0:
		return fmt.Sprintf("and no %s explain what the marks show: check what was read, and the nominal angles, before you suspect a part.",
			counted(d.Tried, "slip"))
	case len(d.Explanations) > 1:
		return fmt.Sprintf("and the marks cannot tell between %s of %s; the likeliest points to %s.",
			counted(len(d.Explanations), "set"), counted(d.Tried, "slip"), d.Explanations[0])
	case single(d.Explanations[0]):
		return fmt.Sprintf("which points to %s.", d.Explanations[0])
	}
	return fmt.Sprintf("which points to %s; the marks cannot tell between %s.", d.Explanations[0], those(d))
}

// those is what stands for the joints that an explanation joins by "or".
func those(d mark.Diagnosis) string {
	if d.Tried == 1 {
		return "them"
	}
	return "the joints at each \"or\""
}

// single tells whether an explanation names one joint for every slip.
func single(e mark.Explanation) bool {
	for _, s := range e.Slips {
		if len(s.Joints) > 1 {
			return false
		}
	}
	return true
}

// tdcInDoubt tells whether the marks point to the TDC that they are held against,
// likeliest.
func (f Find) tdcInDoubt() bool {
	for _, e := range f.Diagnosis.Explanations[:min(1, len(f.Diagnosis.Explanations))] {
		for _, s := range e.Slips {
			if slices.Contains(s.Joints, mark.TDCPart) {
				return true
			}
		}
	}
	return false
}

// counted is a number of things: "one slip", "2 slips".
func counted(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// offBy is how far off something is, with its interval: "2.8 ± 0.3 deg late".
func offBy(off, expanded geometry.Angle) string {
	places := decimals(expanded.Degrees())
	way := "late"
	if off < 0 {
		way = "early"
	}
	return fmt.Sprintf("%s ± %s deg %s", fixed(math.Abs(off.Degrees()), places), fixed(expanded.Degrees(), places), way)
}
