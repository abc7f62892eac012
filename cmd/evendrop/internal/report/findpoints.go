package report

import (
	"fmt"
	"math"
	"strings"

	"evendrop/tdc/mark"
)

// mostShown is how many explanations are printed; JSON has all.
const mostShown = 5

// pointsTo adds the explanations, likeliest first, what would tell them apart, and
// what no mark sees.
func (f Find) pointsTo(d *document) {
	diagnosis := f.Diagnosis
	d.heading("What the marks point to")
	d.paragraph(summary(diagnosis))
	if diagnosis.Tried > 0 && len(diagnosis.Explanations) > 0 {
		var list []string
		for i, e := range diagnosis.Explanations[:min(mostShown, len(diagnosis.Explanations))] {
			list = append(list, explained(e, i, len(diagnosis.Explanations)))
		}
		d.bullets(list)
	}
	if len(diagnosis.TellApart) > 0 {
		d.heading("What would tell them apart, the cheapest first")
		d.bullets(looks(diagnosis.TellApart))
	}
	if len(diagnosis.Unmeasured) > 0 {
		d.paragraph("No mark sees whether these have moved: " + strings.Join(diagnosis.Unmeasured, ", ") + ".")
	}
}

// summary says how far the explanations can be relied on.
func summary(d mark.Diagnosis) string {
	n := len(d.Explanations)
	switch {
	case n == 0:
		return fmt.Sprintf("No %s explain these marks. Check what was read, and the nominal angles, before you suspect a part.", counted(d.Tried, "slip"))
	case d.Tried == 0:
		return fmt.Sprintf("Nothing need have moved: alone, no joint that these marks see has moved by more than %.1f deg (95 %%).",
			math.Ceil(d.DetectionLimit.Degrees()*10)/10)
	case n > mostShown:
		return fmt.Sprintf("%d sets of %s each agree with every mark, and the marks cannot tell between them; the likeliest %d:", n, counted(d.Tried, "slip"), mostShown)
	case n > 1:
		return fmt.Sprintf("%d sets of %s each agree with every mark, and the marks cannot tell between them. The likeliest first:", n, counted(d.Tried, "slip"))
	case single(d.Explanations[0]):
		return fmt.Sprintf("The marks agree with %s and with no other set as small:", counted(d.Tried, "slip"))
	}
	return fmt.Sprintf("The marks agree with %s, and cannot tell between the joints named together:", counted(d.Tried, "slip"))
}

// explained is an explanation, how well it fits, and what its sizes agree with.
func explained(e mark.Explanation, i, of int) string {
	text := e.String()
	if of > 1 {
		text = fmt.Sprintf("%d: %s", i+1, text)
	}
	if e.DegreesOfFreedom > 0 {
		text += fmt.Sprintf(" (chi-square %.1f with %s of freedom, p = %.2g)", e.ChiSquare, counted(e.DegreesOfFreedom, "degree"), e.P)
	}
	text += "."
	for _, s := range e.Slips {
		for _, n := range s.Notes {
			text += " " + n
		}
	}
	return text
}

// looks is what to look at or read next, in sentences.
func looks(list []mark.Look) []string {
	var out []string
	for _, l := range list {
		out = append(out, look(l))
	}
	return out
}

func look(l mark.Look) string {
	what := strings.ToUpper(l.What[:1]) + l.What[1:]
	if l.Separation > 0 {
		return fmt.Sprintf("%s: the answers lie %.0f standard uncertainties apart (%s).", what, l.Separation, strings.Join(l.Apart, ", "))
	}
	return fmt.Sprintf("%s (%s).", what, strings.Join(l.Apart, ", "))
}
