// Package budget says what TDC's uncertainty is made of, and what would shrink it.
package budget

import (
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/curve"
)

// Table is what the uncertainty is made of.
func Table(r tdc.Result) doc.Table {
	t := doc.Table{Caption: "What the uncertainty is made of", Header: []string{"What the uncertainty is made of", "deg"}}
	for _, c := range r.Budget {
		if c.Angle.Degrees() >= 0.0005 {
			t.Rows = append(t.Rows, []string{words.Source(c.Source), words.Fixed(c.Angle.Degrees(), 3)})
		}
	}
	t.Rows = append(t.Rows, []string{"together, standard uncertainty", words.Fixed(r.TDC.Uncertainty.Degrees(), 3)})
	return t
}

// InWords names the greatest part of the uncertainty and what would shrink it. More
// readings do not shrink the protractor's own error, but they do the rest.
func InWords(r tdc.Result) string {
	rest := Greatest(r)
	cure := Cures[rest]
	switch scale := ScaleLimits(r); {
	case scale && cure != "":
		return OwnError + " Most of the rest is " + cure
	case scale:
		return OwnError
	case cure != "":
		return "Most of the uncertainty is " + cure
	}
	return ""
}

// OwnError is said where that is so.
const OwnError = "Most of the uncertainty is the protractor's own error: more readings do not shrink it, a finer protractor does."

// OneWay is InWords of readings that are not turned back for what that would shrink.
func OneWay(r tdc.Result) string {
	switch {
	case Greatest(r) != adjust.LashSource:
		return InWords(r)
	case ScaleLimits(r):
		return OwnError + " Most of the rest is lash, which only turning back would cancel."
	}
	return "Most of the uncertainty is lash, which only turning back would cancel."
}

// ScaleLimits tells whether the protractor's own error is the greatest part.
func ScaleLimits(r tdc.Result) bool { return Part(r, adjust.ScaleError) > Part(r, Greatest(r)) }

// Greatest is the source of the greatest part beside the protractor's own error; empty of
// no budget.
func Greatest(r tdc.Result) string {
	var most adjust.Contribution
	for _, c := range r.Budget {
		if c.Source != adjust.ScaleError && (c.Angle > most.Angle || most.Source == "") {
			most = c
		}
	}
	return most.Source
}

// Part is what a source contributes.
func Part(r tdc.Result, source string) geometry.Angle {
	for _, c := range r.Budget {
		if c.Source == source {
			return c.Angle
		}
	}
	return 0
}

// Cures is what shrinks each source, in words that end a sentence.
var Cures = map[string]string{
	adjust.AngleReadings: "in the angle readings: more of them, or a finer protractor, would shrink it.",
	adjust.DepthReadings: "in the depth readings: read deeper on the flanks, or with a finer gauge.",
	adjust.LashSource: "lash: where it is safe, turn the engine back and read again, and the two directions " +
		"will cancel it.",
	adjust.ScaleSource:  "in the gauge's scale and the engine's dimensions: read both flanks to the same depths.",
	adjust.OffsetSource: "the unknown offset: state pin_offset and bore_offset, or read at smaller drops.",
	adjust.OffCentre:    "the protractor off its centre: centre it, or state off_centre.",
	curve.StopContacts:  "in the stop contacts: repeat them, or read them with a finer protractor.",
	curve.DwellPairs:    "in the dwell: it is a quick look. A gauge read on both flanks, or a stop, is far better.",
	curve.EqualViews:    "in the equal views: take more, at greater drops.",
	adjust.EyeLag:       "the eye's lag: where it is safe, turn back and look again the other way.",
	adjust.MovedSource:  "what may have moved while it was read, or is worn: at the end read two of the first places again.",
	adjust.Scatter:      "scatter that the instruments do not explain: look for a loose pointer, protractor or gauge.",
}
