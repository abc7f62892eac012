package find

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

// headline is the finding that a person acts on, in one sentence; empty without
// marks.
func (f Answer) Headline() string {
	var outside, close []mark.Judged
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
		what := "No mark can be called outside its limit, "
		if limits == 0 {
			what = "No limits were given, "
		}
		return what + strings.Replace(pointing(d), "which points", "but together the marks point", 1)
	case len(close) > 0:
		return are(close, len(f.Marks)) + " too close to " + its(close) + " to call."
	case limits == len(f.Marks):
		return "Every mark is within its limit, and nothing need have moved."
	}
	return "Nothing need have moved to make the marks what they are."
}

// are is the marks and their verb: "The notch is", "2 of 6 marks are".
func are(marks []mark.Judged, of int) string {
	if len(marks) == 1 {
		return fmt.Sprintf("The %s is", marks[0].Name)
	}
	return fmt.Sprintf("%d of %d marks are", len(marks), of)
}

func its(marks []mark.Judged) string {
	if len(marks) == 1 {
		return "its limit"
	}
	return "their limits"
}

// pointing goes on from a finding: what it points to.
func pointing(d joint.Diagnosis) string {
	likely, _, more := d.Ranked()
	better := ""
	if len(more) > 0 {
		better = fmt.Sprintf("; %s would fit better", words.Count(len(more[0].Slips), "slip"))
	}
	switch {
	case len(likely) == 0:
		return fmt.Sprintf("and %s what the marks show: check what was read, and the nominal angles, before you suspect a part.", none(d.Tried))
	case len(likely) > 1:
		return fmt.Sprintf("and the marks cannot tell between %s of %s; the likeliest points to %s%s.",
			words.Count(len(likely), "set"), words.Count(d.Tried, "slip"), words.Explanation(likely[0]), better)
	case single(likely[0]):
		return fmt.Sprintf("which points to %s%s.", words.Explanation(likely[0]), better)
	}
	return fmt.Sprintf("which points to %s; the marks cannot tell between %s%s.", words.Explanation(likely[0]), those(d), better)
}

// none says that not so many slips explain.
func none(slips int) string {
	if slips == 1 {
		return "no single slip explains"
	}
	return fmt.Sprintf("no %d slips explain", slips)
}

// those is what stands for the joints that an explanation joins by "or".
func those(d joint.Diagnosis) string {
	if d.Tried == 1 {
		return "them"
	}
	return "the joints at each \"or\""
}

// single tells whether an explanation names one joint for every slip.
func single(e joint.Explanation) bool {
	for _, s := range e.Slips {
		if len(s.Joints) > 1 {
			return false
		}
	}
	return true
}

// tdcInDoubt tells whether the marks point to the TDC that they are held against,
// likeliest.
func (f Answer) tdcInDoubt() bool {
	for _, e := range f.Diagnosis.Explanations[:min(1, len(f.Diagnosis.Explanations))] {
		for _, s := range e.Slips {
			if slices.Contains(s.Joints, joint.TDCPart) {
				return true
			}
		}
	}
	return false
}
