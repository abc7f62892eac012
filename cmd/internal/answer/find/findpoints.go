package find

import (
	"fmt"
	"math"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark/joint"
)

// mostShown is how many explanations are printed; JSON has all.
const mostShown = 5

// pointsTo adds the explanations, likeliest first, what would tell them apart, and
// what no mark sees.
func (f Answer) pointsTo(d *doc.Document) {
	diagnosis := f.Diagnosis
	d.Section("What the marks point to")
	d.Say(summary(diagnosis))
	likely, less, more := diagnosis.Ranked()
	if diagnosis.Tried > 0 && len(likely) > 0 {
		d.List(f.explained(likely))
	}
	if len(less) > 0 {
		d.Say(forgiven)
		d.List(f.explained(less))
	}
	if len(more) > 0 {
		d.Say(better(more))
		d.List(f.explained(more))
	}
	if len(diagnosis.TellApart) > 0 {
		d.Section("What would tell them apart, the cheapest first")
		d.List(looks(diagnosis.TellApart))
	}
	if len(diagnosis.Unmeasured) > 0 {
		d.Say("No mark sees whether these have moved: " + strings.Join(diagnosis.Unmeasured, ", ") + ".")
	}
}

// summary says how far the explanations can be relied on.
func summary(d joint.Diagnosis) string {
	likely, _, _ := d.Ranked()
	n := len(likely)
	slips := words.Count(d.Tried, "slip")
	switch {
	case n == 0:
		return words.Capital(none(d.Tried)) + " these marks. Check what was read, and the nominal angles, before you suspect a part."
	case d.Tried == 0:
		return fmt.Sprintf("Nothing need have moved: alone, no joint that these marks see has moved by more than %.1f deg (95 %%).",
			math.Ceil(d.DetectionLimit.Degrees()*10)/10)
	case n > mostShown:
		return fmt.Sprintf("%d sets of %s each agree with every mark, and the marks cannot tell between them. The likeliest %d:", n, slips, mostShown)
	case n > 1:
		return fmt.Sprintf("%d sets of %s each agree with every mark, and the marks cannot tell between them. The likeliest first:", n, slips)
	case single(likely[0]):
		return fmt.Sprintf("With %s all marks agree, and with no other so likely:", slips)
	}
	return fmt.Sprintf("With %s all marks agree; they cannot tell between the joints at each \"or\":", slips)
}

// explained is explanations in sentences, the first few.
func (f Answer) explained(list []joint.Explanation) []string {
	var out []string
	for i, e := range list[:min(mostShown, len(list))] {
		text := f.explanation(e)
		if len(list) > 1 {
			text = fmt.Sprintf("%d: %s", i+1, text)
		}
		out = append(out, text)
	}
	return out
}

// explanation is its slips, how well it fits, and what its sizes agree with.
func (f Answer) explanation(e joint.Explanation) string {
	text := words.Explanation(e)
	if e.ByLimits() {
		text += "; " + words.Fits(e)
	}
	text += "."
	for _, s := range e.Slips {
		for _, n := range s.Notes {
			text += " " + words.Capital(f.bench().Finding(n))
		}
	}
	return text
}

// forgiven is said before what explains the marks, but much worse.
const forgiven = "Much less likely, since it leaves the marks farther from where they should be:"

// better is said before what takes more slips, and that chance does explain.
func better(more []joint.Explanation) string {
	return fmt.Sprintf("That leaves the marks, if within their limits, farther off together than chance explains. So it may be %s:",
		words.Count(len(more[0].Slips), "slip"))
}

// looks is what to look at or read next, in sentences.
func looks(list []joint.Look) []string {
	var out []string
	for _, l := range list {
		out = append(out, words.LookApart(l))
	}
	return out
}
