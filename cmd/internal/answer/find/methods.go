package find

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// methodTable is TDC by each method.
func (f Answer) methodTable(r tdc.Result) doc.Table {
	t := doc.Table{Caption: "TDC by each method", Header: []string{"Method", "TDC at, deg", "± (95 %)", "readings"}}
	for _, m := range r.Methods {
		places := words.Decimals(m.Expanded.Degrees())
		t.Rows = append(t.Rows, []string{m.Name, f.reads(m.Angle, places), words.Fixed(m.Expanded.Degrees(), places), strconv.Itoa(m.Readings)})
	}
	return t
}

// ofMethods is what there is to say of a cylinder's methods.
func (f Answer) ofMethods(r tdc.Result) (list []string) {
	if len(r.Readings) > 0 {
		list = append(list, strings.TrimSpace(agreement(r)+" "+f.trend(r)))
	}
	if r.Dwell != nil {
		list = append(list, f.seen(*r.Dwell))
	}
	if text := scaleCheck(r); text != "" {
		list = append(list, text)
	}
	return list
}

// agreement says whether the two methods tell the same.
func agreement(r tdc.Result) string {
	switch {
	case r.Slip != nil:
		return notMoved
	case r.Agreement == nil:
		return noEqualDrop
	}
	return difference(*r.Agreement) + map[bool]string{true: " They agree.", false: " " + disagree}[r.Agreement.Agrees()]
}

// disagreement is what agreement says that a person has to know first; empty of
// methods that agree.
func disagreement(r tdc.Result) string {
	if len(r.Readings) == 0 || r.Agreement != nil && r.Agreement.Agrees() {
		return ""
	}
	return agreement(r)
}

const (
	noEqualDrop = "Equal drop has no answer: no depth was reached on both sides of TDC. Read both flanks at the same depths."
	notMoved    = "Equal drop is left out: it cannot allow for what moved."
	disagree    = "They disagree: look at each reading (--every-reading) and at the engine's dimensions before you rely on either."
)

func difference(a tdc.Agreement) string {
	places := words.Decimals(a.Limit.Degrees())
	return fmt.Sprintf("Equal drop minus curve fit: %s deg, and up to %s could be chance.",
		words.Signed(a.Difference.Degrees(), places), words.Fixed(a.Limit.Degrees(), places))
}

// scaleCheck compares the curve's scale with 1: a check of what was typed. What the
// readings say no more of than was known before is not worth a line.
func scaleCheck(r tdc.Result) string {
	half := 2 * r.Scale.Uncertainty
	if slices.ContainsFunc(r.Findings, isScaleOff) {
		return "" // said already, and louder
	}
	if len(r.Readings) == 0 || r.CannotTell != nil || r.Assumed.Stroke > 0 || !(half > 0) || half > worthAScale {
		return ""
	}
	text := fmt.Sprintf("The gauge shows %s times the travel computed from stroke and rod", words.Within(r.Scale.Value, half))
	switch {
	case math.Abs(r.Scale.Value-1) <= math.Max(half, scaleBelievable):
		return text + ", as it should."
	case r.Scale.Value < 1:
		return text + ". A wrong stroke or rod would do that, or a crown that slopes under the gauge."
	}
	return text + fmt.Sprintf(". A gauge at a slant of %.0f deg would do that; so would a wrong stroke or rod.", slant(r.Scale.Value).Degrees())
}

// A scale known to less than a twentieth checks little; one within a hundredth of 1
// is a dial gauge's own (common practice, no source).
const (
	worthAScale     = 0.05
	scaleBelievable = 0.01
)

// slant is the gauge's slant that makes it show a scale above 1: it travels 1/cos as
// far as the piston.
func slant(scale float64) geometry.Angle { return geometry.Angle(math.Acos(math.Min(1, 1/scale))) }

// trials says what the trials found.
func (f Answer) trials(t adjust.Trials) string {
	places := words.Decimals(t.Uncertainty.Degrees()) + 1
	span := func(interval [2]geometry.Angle) string {
		ends := f.Job.Setup.Protractor.LowFirst(interval)
		return f.reads(ends[0], places) + " to " + f.reads(ends[1], places)
	}
	return fmt.Sprintf("%d trials of the whole job (JCGM 101, seed %d): TDC at %s, standard uncertainty %s deg; 95 %% from %s, the shortest such from %s.",
		t.Count, t.Seed, f.reads(t.Estimate, places), words.Fixed(t.Uncertainty.Degrees(), places), span(t.Symmetric), span(t.Shortest))
}

// trend says what the midpoints do as the drop grows, and what that points to.
func (f Answer) trend(r tdc.Result) string {
	t := r.Trend
	switch t.Pattern {
	case halve.Flat:
		return "The midpoints are the same at every drop."
	case halve.LikeLash:
		made := fmt.Sprintf("The midpoints come nearer to TDC as the drop grows, as %s of lash makes them",
			f.measured(gum.Measured{Value: math.Abs(t.Lash.Value), Uncertainty: t.Lash.Uncertainty}))
		switch {
		case t.Lash.Value < 0:
			return made + " with the crank turned the other way than stated. Check the turn of each reading."
		case oneWay(r):
			return made + ": turn back and read again, where that is safe."
		}
		return made + "; read both ways, it cancels."
	case halve.LikeOffset:
		unit, each := "mm", 1.0
		if f.Bench().Inches {
			unit, each = "inch", geometry.Inch.Millimetres()
		}
		return fmt.Sprintf("The midpoints move by %s deg with every %s of drop. That points to an offset not stated, or a protractor off its centre.",
			words.Signed(each*t.Growth.Value, words.Decimals(each*t.Growth.Uncertainty)), unit)
	case halve.OneLevel:
		return fmt.Sprintf("The midpoint at the depth of line %d stands apart from the others: read that depth again on both sides.", t.Line)
	case halve.NoPattern:
		return "The midpoints scatter in no pattern: look for a loose pointer, protractor or gauge."
	}
	return ""
}

// oneWay tells whether every reading was taken turning the same way.
func oneWay(r tdc.Result) bool {
	for _, j := range r.Readings {
		if j.Turn != r.Readings[0].Turn {
			return false
		}
	}
	return true
}

// seen says what the eye resolved, and how late it was.
func (f Answer) seen(d adjust.Dwell) string {
	text := fmt.Sprintf("You saw %s of motion.", f.Bench().Depth(d.Resolved))
	if d.Lag == nil {
		return text
	}
	return text + fmt.Sprintf(" Each way the dwell came %s deg late; the two ways cancel it.", words.Fixed(d.Lag.Degrees(), 2))
}

func isScaleOff(f finding.Finding) bool { _, is := f.(finding.ScaleOff); return is }
