package find

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
)

// mostShown is how many explanations are printed; JSON has all.
const mostShown = 5

// pointsTo adds the explanations, likeliest first, what would tell them apart, and
// what no mark checks.
func (f Answer) pointsTo(d *doc.Document, draw drawing) {
	if len(f.Marks) == 0 {
		return
	}
	diagnosis := f.Diagnosis
	d.Section("What the marks point to")
	draw.figure(d, picture.Drive, driveCaption(diagnosis))
	d.Say(summary(diagnosis))
	likely, less, more := diagnosis.Ranked()
	if diagnosis.Tried > 0 {
		d.Add(f.explained(likely)...)
	}
	if len(less) > 0 {
		d.Say(forgiven)
		d.Add(f.explained(less)...)
	}
	if len(more) > 0 {
		d.Say(f.better(likely, more))
		d.Add(f.explained(more)...)
	}
	if len(diagnosis.TellApart) > 0 {
		d.Part("What would tell them apart, in this order")
		d.List(looks(diagnosis.TellApart))
	}
	if len(diagnosis.Unmeasured) > 0 {
		d.SayAs(doc.Quiet, "Not checked by any mark: "+strings.Join(diagnosis.Unmeasured, ", ")+". Movement there would not show.")
	}
}

// driveCaption says what the lines of the drive's picture mean.
func driveCaption(d joint.Diagnosis) string {
	if d.Tried == 0 {
		return ""
	}
	_, less, _ := d.Ranked()
	text := "Thick dashed lines lead to what may have moved."
	if !picture.OneAnswer(d) {
		text += " The marks cannot tell them apart, so none is picked out."
	}
	if len(less) > 0 {
		text += " What is much less likely is grey and dotted."
	}
	return text
}

// summary says how far the explanations can be relied on.
func summary(d joint.Diagnosis) string {
	likely, _, _ := d.Ranked()
	n := len(likely)
	slips := words.Count(d.Tried, "slip")
	switch {
	case n == 0:
		return words.Capital(words.NoSlips(d.Tried)) + " these marks. Check what was read, and the given angles, before you suspect a part."
	case d.Tried == 0:
		return fmt.Sprintf("No joint has to have moved to explain these marks. If a single joint that they check has moved, it is by no more than %.1f deg (95 %%).",
			math.Ceil(d.DetectionLimit.Degrees()*10)/10)
	case n > mostShown:
		return fmt.Sprintf("%s agree with every mark, and the marks cannot tell them apart. The likeliest %d:", words.Capital(sets(n, d.Tried)), mostShown)
	case n > 1:
		return fmt.Sprintf("%s agree with every mark, and the marks cannot tell them apart. The likeliest first:", words.Capital(sets(n, d.Tried)))
	case single(likely[0]):
		return fmt.Sprintf("All marks agree with %s, and no other explanation is as likely:", slips)
	}
	return fmt.Sprintf("All marks agree with %s; they cannot tell the joints at each \"or\" apart:", slips)
}

// explained is explanations in sentences, the first few, numbered where there are
// several.
func (f Answer) explained(list []joint.Explanation) []doc.Block {
	var items []string
	for _, e := range list[:min(mostShown, len(list))] {
		items = append(items, f.explanation(e))
	}
	if len(items) == 0 {
		return nil
	}
	return []doc.Block{doc.List{Ordered: len(list) > 1, Items: items}}
}

// explanation is its slips, what chance says against it, and what its sizes agree with.
func (f Answer) explanation(e joint.Explanation) string {
	text := words.Explanation(e)
	if e.ByLimits() {
		text += " (" + words.Fits(e) + ")"
	}
	text += "."
	for _, s := range e.Slips {
		for _, n := range s.Notes {
			text += " " + words.Capital(f.Bench().Finding(n))
		}
	}
	return text
}

// forgiven is said before what explains the marks, but much worse.
const forgiven = "Much less likely, since the marks would stand farther from where they should be:"

// better is said before what takes more slips, and leaves less to chance or within limits.
func (f Answer) better(likely, more []joint.Explanation) string {
	switch {
	case f.Diagnosis.OnBench:
		return fmt.Sprintf("%s %s:", words.OffBench, words.Count(len(more[0].Slips), "slip"))
	case !byLimits(likely):
		return fmt.Sprintf("That leaves a mark beyond its limit, though by no more than its ±. %s would leave none:",
			words.Capital(words.Count(len(more[0].Slips), "slip")))
	}
	return fmt.Sprintf("Each mark may then be within its limit, but together they are farther off than chance explains. So it may be %s:",
		words.Count(len(more[0].Slips), "slip"))
}

// statistics adds how well the marks agree with each explanation, for whoever reads
// chi-squares.
func (f Answer) statistics(d *doc.Document) {
	likely, less, more := f.Diagnosis.Ranked()
	var items []string
	for _, list := range [][]joint.Explanation{likely, less, more} {
		for _, e := range list[:min(mostShown, len(list))] {
			if fit := words.ChiSquare(e); fit != "" {
				items = append(items, cmp.Or(words.Explanation(e), "no slip")+": "+fit+".")
			}
		}
	}
	if len(items) == 0 {
		return
	}
	d.Section("How well the marks agree, in statistics")
	d.SayAs(doc.Quiet, "Chi-square adds up how far the marks lie from an explanation, each squared, in standard uncertainties. "+
		"p is the chance that scatter alone puts them so far from it.")
	d.List(items)
}

// looks is what to look at or read next, in sentences.
func looks(list []inspect.Look) []string {
	var out []string
	for _, l := range list {
		out = append(out, words.LookApart(l))
	}
	return out
}
