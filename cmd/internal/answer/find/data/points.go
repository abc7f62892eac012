package data

import (
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark/joint/seen"
)

// Explanation is a set of slips that would explain the marks.
type Explanation struct {
	Slips   []jointSlip `json:"slips"`
	Chi     float64     `json:"chi2"`
	Degrees int         `json:"degrees_of_freedom"`
	P       *float64    `json:"p" doc:"null: without degrees of freedom"`
}

type jointSlip struct {
	Joints      []string       `json:"joints" doc:"more than one: nothing read so far separates them; TDC of cylinder 1 is a protractor or pointer too that moved after the pistons were read, or what the given angles count from"`
	Opposite    []string       `json:"opposite_joints" doc:"of the joints, those that moved the other way"`
	Shift       float64        `json:"shift_deg"`
	Uncertainty float64        `json:"standard_uncertainty_deg"`
	Expanded    float64        `json:"expanded_uncertainty_deg"`
	Notes       []string       `json:"notes"`
	Findings    []form.Finding `json:"findings" doc:"notes, with their numbers"`
}

type look struct {
	Kind       string   `json:"kind"`
	Part       string   `json:"part"`
	On         *string  `json:"on" doc:"what carries it; null: it is not a joint"`
	Cost       int      `json:"cost" doc:"the dearer the more has to come off"`
	What       string   `json:"what" doc:"what to look at or to read"`
	Between    []string `json:"between" doc:"the sets of joints that it tells between"`
	Teeth      bool     `json:"whole_teeth" doc:"it would show a jump of whole teeth, and so comes before any part is bought"`
	Separation *float64 `json:"separation_standard_uncertainties" doc:"how far apart the answers lie; null: it is a look, without a number"`
}

// points is what the marks point to.
type points struct {
	Explanations []Explanation `json:"explanations"`
	TellApart    []string      `json:"tell_apart" doc:"what to look at next"`
	Looks        []look        `json:"looks" doc:"tell_apart in parts"`
	MovedLess    *float64      `json:"moved_by_less_than_deg" doc:"of any joint alone; null unless nothing need have moved"`
	Unmeasured   []string      `json:"unmeasured" doc:"joints that no mark sees"`
	Headline     *string       `json:"headline" doc:"what the marks come to, in a sentence; null: there are no marks to judge"`
	KnownGood    *string       `json:"known_good" doc:"the file that the marks are compared with; null without"`
}

func (f encoder) points(headline string) points {
	d := f.Diagnosis
	p := points{
		Explanations: Explanations(f.All), TellApart: []string{}, Looks: []look{},
		Unmeasured: append([]string{}, d.Unmeasured...), Headline: said(headline),
	}
	for _, l := range d.TellApart {
		p.TellApart = append(p.TellApart, words.LookApart(l))
		j := look{Kind: string(l.How), What: words.Look(l), Part: l.Part, On: said(l.On), Cost: l.Cost, Between: joints(l.Apart), Teeth: l.Teeth}
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

// Explanations is what would explain the marks, likeliest first.
func Explanations(f found.All) []Explanation {
	list := []Explanation{}
	for _, e := range f.Diagnosis.Explanations {
		j := Explanation{Slips: []jointSlip{}, Chi: e.ChiSquare, Degrees: e.DegreesOfFreedom, P: form.Finite(e.P)}
		for _, s := range e.Slips {
			j.Slips = append(j.Slips, jointSlip{
				joints(s.Joints), joints(s.Opposite), s.Angle.Degrees(), s.Uncertainty.Degrees(), s.Expanded.Degrees(),
				f.Bench().Findings(s.Notes), form.Findings(s.Notes, f.Bench().Finding),
			})
		}
		list = append(list, j)
	}
	return list
}

// joints is names of joints as the format has them: one for all that marks are compared with.
func joints(names []string) []string {
	list := append([]string{}, names...)
	for i, name := range list {
		if seen.IsZero(name) {
			list[i] = seen.TDC
		}
	}
	return list
}
