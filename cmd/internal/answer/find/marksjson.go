package find

import (
	"strings"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
)

type markJSON struct {
	Name        string         `json:"name"`
	On          string         `json:"on" doc:"the member that carries it"`
	Against     *string        `json:"against" doc:"the member that it was measured against; null: the crank"`
	Read        *float64       `json:"read_deg" doc:"crank degrees after TDC; null: measured as a shift"`
	ShouldBe    *float64       `json:"should_be_deg" doc:"crank degrees after TDC; null: measured as a shift"`
	Off         *float64       `json:"off_deg" doc:"crank degrees, late positive; null where should_be is unknown"`
	Uncertainty float64        `json:"standard_uncertainty_deg"`
	Expanded    float64        `json:"expanded_uncertainty_deg" doc:"half-width of the 95 % interval"`
	Sets        []markSetJSON  `json:"sets" doc:"that it was read in, combined in read_deg; empty: measured as a shift"`
	Limit       *float64       `json:"limit_deg" doc:"null: none was given"`
	Verdict     *string        `json:"verdict" enum:"within|outside|too close to call" doc:"null: no limit was given"`
	Source      *string        `json:"source" doc:"of should_be; null: not said"`
	Settles     *float64       `json:"settled_by_expanded_uncertainty_deg" doc:"the half-width that would call it; null: it is called, or has no limit"`
	ToSettle    *string        `json:"to_settle" doc:"what would call it; null: it is called, or has no limit"`
	Notes       []string       `json:"notes" doc:"what to ask before judging by it"`
	Findings    []form.Finding `json:"findings" doc:"notes and to_settle, with their numbers"`
}

// markSetJSON is a mark as one setting of the protractor has it.
type markSetJSON struct {
	Set         int     `json:"set"`
	Read        float64 `json:"read_deg" doc:"crank degrees after the set's own TDC"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Expanded    float64 `json:"expanded_uncertainty_deg"`
}

type ExplanationJSON struct {
	Slips   []slipJSON `json:"slips"`
	Chi     float64    `json:"chi2"`
	Degrees int        `json:"degrees_of_freedom"`
	P       *float64   `json:"p" doc:"null: without degrees of freedom"`
}

type slipJSON struct {
	Joints      []string       `json:"joints" doc:"more than one: nothing read so far separates them"`
	Opposite    []string       `json:"opposite_joints" doc:"of the joints, those that moved the other way"`
	Shift       float64        `json:"shift_deg"`
	Uncertainty float64        `json:"standard_uncertainty_deg"`
	Expanded    float64        `json:"expanded_uncertainty_deg"`
	Notes       []string       `json:"notes"`
	Findings    []form.Finding `json:"findings" doc:"notes, with their numbers"`
}

type lookJSON struct {
	Kind       string   `json:"kind"`
	Part       string   `json:"part"`
	On         *string  `json:"on" doc:"what carries it; null: it is not a joint"`
	Cost       int      `json:"cost" doc:"the dearer the more has to come off"`
	What       string   `json:"what" doc:"what to look at or to read"`
	Between    []string `json:"between" doc:"the sets of joints that it tells between"`
	Separation *float64 `json:"separation_standard_uncertainties" doc:"how far apart the answers lie; null: it is a look, without a number"`
}

// pointsJSON is what the marks point to.
type pointsJSON struct {
	Explanations []ExplanationJSON `json:"explanations"`
	TellApart    []string          `json:"tell_apart" doc:"what to look at next"`
	Looks        []lookJSON        `json:"looks" doc:"tell_apart in parts"`
	MovedLess    *float64          `json:"moved_by_less_than_deg" doc:"of any joint alone; null unless nothing need have moved"`
	Unmeasured   []string          `json:"unmeasured" doc:"joints that no mark sees"`
	Headline     *string           `json:"headline" doc:"what the marks come to, in a sentence; null: there are no marks to judge"`
	KnownGood    *string           `json:"known_good" doc:"the file that the marks are compared with; null without"`
}

func (f Answer) marksJSON() []markJSON {
	list := []markJSON{}
	for _, m := range f.AllMarks() {
		j := markJSON{
			Name: m.Name, On: m.On, Against: said(m.Against), Uncertainty: m.Uncertainty.Degrees(),
			Expanded: m.Expanded.Degrees(), Source: said(f.source(m)), Notes: f.bench().Findings(m.Notes), Findings: form.Findings(m.Findings(), f.bench().Finding),
			Sets: []markSetJSON{},
		}
		for _, s := range m.Sets {
			j.Sets = append(j.Sets, markSetJSON{s.Set, s.Angle.Degrees(), s.Uncertainty.Degrees(), s.Expanded.Degrees()})
		}
		if m.ToSettle != nil {
			j.ToSettle = said(f.bench().Finding(m.ToSettle))
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

// judged adds what is told of a mark that is compared with something.
func (j *markJSON) judged(m mark.Judged) {
	j.Off = form.Finite(m.Angle.Degrees())
	if located(m) {
		j.ShouldBe = form.Finite(words.Stated(m.Nominal))
	}
	if m.HasLimit {
		j.Verdict = said(string(m.Verdict))
	}
}

// source is where what a mark should be is from; empty when nobody said.
func (f Answer) source(m mark.Judged) string {
	if m.AgainstHealthy() && f.Against != nil {
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
		p.Explanations = append(p.Explanations, f.explanationJSON(e))
	}
	for _, l := range d.TellApart {
		j := lookJSON{Kind: string(l.How), What: words.Look(l), Part: l.Part, On: said(l.On), Cost: l.Cost, Between: l.Apart}
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

func (f Answer) explanationJSON(e joint.Explanation) ExplanationJSON {
	j := ExplanationJSON{Slips: []slipJSON{}, Chi: e.ChiSquare, Degrees: e.DegreesOfFreedom, P: form.Finite(e.P)}
	for _, s := range e.Slips {
		j.Slips = append(j.Slips, slipJSON{
			s.Joints, append([]string{}, s.Opposite...), s.Angle.Degrees(), s.Uncertainty.Degrees(), s.Expanded.Degrees(),
			f.bench().Findings(s.Notes), form.Findings(s.Notes, f.bench().Finding),
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
