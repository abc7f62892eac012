package find

import (
	"fmt"
	"math"
	"slices"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// ofMethods is what there is to say of a cylinder's methods.
func ofMethods(r tdc.Result) (list []string) {
	if len(r.Readings) > 0 {
		list = append(list, agreement(r))
	}
	if r.Dwell != nil {
		list = append(list, seen(*r.Dwell))
	}
	if text := scaleCheck(r); text != "" {
		list = append(list, text)
	}
	return list
}

// agreement says whether the two methods tell the same.
func agreement(r tdc.Result) string {
	if r.Agreement == nil {
		return "Equal drop has no answer: no depth was reached on both sides of TDC. Read both flanks at like depths."
	}
	places := words.Decimals(r.Agreement.Limit.Degrees())
	text := fmt.Sprintf("Equal drop less curve fit: %s deg, and up to %s could be chance.",
		words.Signed(r.Agreement.Difference.Degrees(), places), words.Fixed(r.Agreement.Limit.Degrees(), places))
	if r.Agreement.Agrees() {
		return text + " They agree. " + trend(r)
	}
	return text + " They disagree: look at each reading (--every-reading) and at the engine's dimensions before you rely on either. " + trend(r)
}

// scaleCheck holds the curve's scale against 1: a check of what was typed. What the
// readings say no more of than was known before is not worth a line.
func scaleCheck(r tdc.Result) string {
	half := 2 * r.Scale.Uncertainty
	if slices.ContainsFunc(r.Findings, func(f finding.Finding) bool { _, ok := f.(finding.ScaleOff); return ok }) {
		return "" // said already, and louder
	}
	if len(r.Readings) == 0 || CannotTell(r) || r.Assumed.Stroke > 0 || !(half > 0) || half > worthAScale {
		return ""
	}
	places := words.Decimals(half)
	off := math.Abs(r.Scale.Value - 1)
	scale := words.Fixed(r.Scale.Value, places) + " ± " + words.Fixed(half, places)
	text := fmt.Sprintf("The piston moves %s times as far as stroke, rod and gauge would have it: ", scale)
	switch {
	case off <= math.Max(half, scaleBelievable):
		return fmt.Sprintf("The gauge shows %s times the travel worked out from stroke and rod: as it should.", scale)
	case r.Scale.Value < 1:
		return text + "a wrong stroke or rod would do that, or a crown that slopes under the gauge."
	}
	return text + fmt.Sprintf("a gauge at a slant of %.0f deg would do that; so would a wrong stroke or rod.", slant(r.Scale.Value).Degrees())
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
		ends := f.lowFirst(interval)
		return f.Reads(ends[0], places) + " to " + f.Reads(ends[1], places)
	}
	return fmt.Sprintf("%d trials of the whole job (JCGM 101, seed %d): TDC at %s, standard uncertainty %s deg; 95 %% from %s, the shortest such from %s.",
		t.Count, t.Seed, f.Reads(t.Estimate, places), words.Fixed(t.Uncertainty.Degrees(), places), span(t.Symmetric), span(t.Shortest))
}

// trend says what the midpoints do as the drop grows, and what that points to.
func trend(r tdc.Result) string {
	t := r.Trend
	switch t.Pattern {
	case halve.Flat:
		return "The midpoints stay where they are at every drop."
	case halve.LikeLash:
		places := words.Decimals(t.Lash.Uncertainty)
		made := fmt.Sprintf("The midpoints come nearer as the drop grows, as %s ± %s mm of lash makes them",
			words.Fixed(math.Abs(t.Lash.Value), places), words.Fixed(2*t.Lash.Uncertainty, places))
		switch {
		case t.Lash.Value < 0:
			return made + " with the crank turned the other way than stated: check the turn of each reading."
		case cancelsLash(r):
			return made + ": where it is safe, turn back and read again."
		}
		return made + "; read both ways, it cancels."
	case halve.LikeOffset:
		return fmt.Sprintf("The midpoints move by %s deg with every mm of drop: that points to an offset not stated, or a wheel off its centre.",
			words.Signed(t.Growth.Value, words.Decimals(t.Growth.Uncertainty)))
	case halve.OneLevel:
		return fmt.Sprintf("The midpoint at the depth of line %d lies apart from the others: read that depth again on both sides.", t.Line)
	case halve.NoPattern:
		return "The midpoints scatter in no pattern: look for a loose pointer, wheel or gauge."
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
func seen(d adjust.Dwell) string {
	text := fmt.Sprintf("You saw %s mm of motion.", words.Fixed(d.Resolved.Millimetres(), 2))
	if d.Lag == nil {
		return text
	}
	return text + fmt.Sprintf(" Each way the dwell came %s deg late; the two ways cancel it.", words.Fixed(d.Lag.Degrees(), 2))
}

// Greatest names the greatest part of the uncertainty and what would shrink it.
func Greatest(r tdc.Result) string { return shrinks[greatest(r)].words }

// greatest is the source of the greatest part of the uncertainty.
func greatest(r tdc.Result) string {
	most := r.Budget[0]
	for _, c := range r.Budget {
		if c.Angle > most.Angle {
			most = c
		}
	}
	return most.Source
}

// turnsBack tells whether the crank is asked to be turned back, in what is said of a
// cylinder: a caution goes with that.
func turnsBack(r tdc.Result) bool {
	return finding.TurnsBack(r.Findings) || shrinks[greatest(r)].cure == finding.TurnBack || cancelsLash(r)
}

// cancelsLash tells whether the midpoints show lash that reading both ways would cancel.
func cancelsLash(r tdc.Result) bool {
	return r.Agreement != nil && r.Trend.Pattern == halve.LikeLash && r.Trend.Lash.Value >= 0 && oneWay(r)
}

// shrinks is what shrinks each source, in words and as a cure.
var shrinks = map[string]struct {
	words string
	cure  finding.Cure
}{
	adjust.AngleReadings: {"Most of the uncertainty is in the angle readings: more of them, or a finer protractor, would shrink it.", finding.ReadMore},
	adjust.DepthReadings: {"Most of the uncertainty is in the depth readings: read deeper on the flanks, or with a finer gauge.", finding.ReadMore},
	adjust.LashSource:    {"Most of the uncertainty is lash: where it is safe, turn the engine back and read again, and the two directions will cancel it.", finding.TurnBack},
	adjust.ScaleSource:   {"Most of the uncertainty is in the gauge's scale and the engine's dimensions: read both flanks to the same depths.", finding.ReadMore},
	adjust.OffsetSource:  {"Most of the uncertainty is the unknown offset: state pin_offset and bore_offset, or read at smaller drops.", finding.MendJob},
	adjust.OffCentre:     {"Most of the uncertainty is the wheel off its centre: centre it, or state off_centre.", finding.LookAtEngine},
	adjust.StopContacts:  {"Most of the uncertainty is in the stop contacts: repeat them, or read them with a finer protractor.", finding.ReadAgain},
	adjust.DwellPairs:    {"Most of the uncertainty is in the dwell: it is a quick look. A gauge read on both flanks, or a stop, tells ten times better.", finding.ReadMore},
	adjust.EqualViews:    {"Most of the uncertainty is in the equal views: take more, at greater drops.", finding.ReadMore},
	adjust.EyeLag:        {"Most of the uncertainty is what the eye is slow to see: where it is safe, turn back and look again the other way.", finding.TurnBack},
	adjust.Scatter:       {"Most of the uncertainty is scatter that the instruments do not explain: look for a loose pointer, wheel or gauge.", finding.LookAtEngine},
}
