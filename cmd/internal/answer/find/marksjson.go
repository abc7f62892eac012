package find

import (
	"strings"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
)

type markJSON struct {
	Name        string   `json:"name"`
	On          string   `json:"on"`
	Against     *string  `json:"against"`       // null: the crank
	Read        *float64 `json:"read_deg"`      // after TDC; null: measured without the protractor
	ShouldBe    *float64 `json:"should_be_deg"` // null: measured without the protractor
	Off         *float64 `json:"off_deg"`       // null: what it should be is unknown
	Uncertainty float64  `json:"standard_uncertainty_deg"`
	Expanded    float64  `json:"expanded_uncertainty_deg"`
	Limit       *float64 `json:"limit_deg"`
	Verdict     *string  `json:"verdict"`
	Source      *string  `json:"source"` // of should_be; null: not said
	Settles     *float64 `json:"settled_by_expanded_uncertainty_deg"`
	ToSettle    *string  `json:"to_settle"`
	Notes       []string `json:"notes"`
}

type ExplanationJSON struct {
	Slips   []slipJSON `json:"slips"`
	Chi     float64    `json:"chi2"`
	Degrees int        `json:"degrees_of_freedom"`
	P       *float64   `json:"p"` // null without degrees of freedom
}

type slipJSON struct {
	Joints      []string `json:"joints"`
	Opposite    []string `json:"opposite_joints"` // those of them that would have moved the other way
	Shift       float64  `json:"shift_deg"`
	Uncertainty float64  `json:"standard_uncertainty_deg"`
	Expanded    float64  `json:"expanded_uncertainty_deg"`
	Notes       []string `json:"notes"`
}

type lookJSON struct {
	What       string   `json:"what"`
	Between    []string `json:"between"`
	Separation *float64 `json:"separation_standard_uncertainties"` // null: a look, with no number to it
}

// pointsJSON is what the marks point to.
type pointsJSON struct {
	Explanations []ExplanationJSON `json:"explanations"`
	TellApart    []string          `json:"tell_apart"`
	Looks        []lookJSON        `json:"looks"`                  // tell_apart in parts
	MovedLess    *float64          `json:"moved_by_less_than_deg"` // of any joint alone; null unless nothing need have moved
	Unmeasured   []string          `json:"unmeasured"`
	Headline     *string           `json:"headline"`
	KnownGood    *string           `json:"known_good"` // the file that the marks are held against; null without
}

func (f Answer) marksJSON() []markJSON {
	list := []markJSON{}
	for _, m := range f.AllMarks() {
		j := markJSON{
			Name: m.Name, On: m.On, Against: said(m.Against), Uncertainty: m.Uncertainty.Degrees(),
			Expanded: m.Expanded.Degrees(), Source: said(f.source(m)), ToSettle: said(m.ToSettle), Notes: append([]string{}, m.Notes...),
		}
		if located(m) {
			j.Read = form.Finite(m.Position.Degrees())
		}
		if m.HasLimit {
			j.Limit = form.Finite(words.Stated(m.Limit))
		}
		if !m.OnlyMeasured() {
			j.judged(m)
		}
		if m.Verdict == mark.TooClose {
			settles := m.Settles.Degrees()
			j.Settles = &settles
		}
		list = append(list, j)
	}
	return list
}

// judged adds what is told of a mark that is held against something.
func (j *markJSON) judged(m mark.Finding) {
	j.Off = form.Finite(m.Angle.Degrees())
	if located(m) {
		j.ShouldBe = form.Finite(words.Stated(m.Nominal))
	}
	if m.HasLimit {
		j.Verdict = said(string(m.Verdict))
	}
}

// source is where what a mark should be is from; empty when nobody said.
func (f Answer) source(m mark.Finding) string {
	if m.Healthy != nil && f.Against != nil {
		return f.Against.File
	}
	return m.Source
}

// said is a text, or nil for none.
func said(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

func (f Answer) PointsJSON() pointsJSON {
	d := f.Diagnosis
	p := pointsJSON{
		Explanations: []ExplanationJSON{}, TellApart: append([]string{}, looks(d.TellApart)...), Looks: []lookJSON{},
		Unmeasured: append([]string{}, d.Unmeasured...), Headline: said(f.Headline()),
	}
	for _, e := range d.Explanations {
		p.Explanations = append(p.Explanations, explanationOf(e))
	}
	for _, l := range d.TellApart {
		j := lookJSON{What: l.What, Between: l.Apart}
		if l.Separation > 0 {
			j.Separation = &l.Separation
		}
		p.Looks = append(p.Looks, j)
	}
	if d.Tried == 0 && len(d.Explanations) > 0 {
		less := d.DetectionLimit.Degrees()
		p.MovedLess = &less
	}
	if f.Against != nil {
		p.KnownGood = &f.Against.File
	}
	return p
}

func explanationOf(e mark.Explanation) ExplanationJSON {
	j := ExplanationJSON{Slips: []slipJSON{}, Chi: e.ChiSquare, Degrees: e.DegreesOfFreedom, P: form.Finite(e.P)}
	for _, s := range e.Slips {
		j.Slips = append(j.Slips, slipJSON{
			s.Joints, append([]string{}, s.Opposite...), s.Angle.Degrees(), s.Uncertainty.Degrees(), s.Expanded.Degrees(), append([]string{}, s.Notes...),
		})
	}
	return j
}

// markRows is the marks' rows of CSV, and the slips of the likeliest explanation.
func (f Answer) markRows() [][]string {
	var rows [][]string
	for _, m := range f.AllMarks() {
		limit, kind := "", "mark"
		if m.HasLimit {
			limit = form.Digits(words.Stated(m.Limit))
		}
		if m.OnlyMeasured() {
			kind = "mark measured"
		}
		rows = append(rows, []string{
			kind, "", m.Name, form.Digits(m.Angle.Degrees()), form.Digits(m.Uncertainty.Degrees()),
			form.Digits(m.Expanded.Degrees()), limit, string(m.Verdict), "",
		})
	}
	for _, e := range f.Diagnosis.Explanations[:min(1, len(f.Diagnosis.Explanations))] {
		for _, s := range e.Slips {
			rows = append(rows, []string{
				"points to", "", strings.Join(s.Joints, " or "), form.Digits(s.Angle.Degrees()), form.Digits(s.Uncertainty.Degrees()),
				form.Digits(s.Expanded.Degrees()), "", "", "",
			})
		}
	}
	return rows
}
