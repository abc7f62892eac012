package data

import (
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
)

type judgedMark struct {
	Name        string         `json:"name"`
	On          string         `json:"on" doc:"the member that carries it"`
	Against     *string        `json:"against" doc:"the member that it was measured against; null: the crank"`
	Read        *float64       `json:"read_deg" doc:"crank degrees after TDC; null: measured as a shift"`
	ShouldBe    *float64       `json:"should_be_deg" doc:"crank degrees after TDC; null: measured as a shift"`
	Off         *float64       `json:"off_deg" doc:"crank degrees, late positive; null where should_be is unknown"`
	Uncertainty float64        `json:"standard_uncertainty_deg"`
	Expanded    float64        `json:"expanded_uncertainty_deg" doc:"half-width of the 95 % interval"`
	Sets        []markSet      `json:"sets" doc:"that it was read in, combined in read_deg; empty: measured as a shift"`
	Limit       *float64       `json:"limit_deg" doc:"null: none was given"`
	Verdict     *string        `json:"verdict" enum:"within|outside|too close to call" doc:"null: no limit was given"`
	Source      *string        `json:"source" doc:"of should_be; null: not said"`
	Settles     *float64       `json:"settled_by_expanded_uncertainty_deg" doc:"the half-width that would call it; null: it is called, or has no limit"`
	ToSettle    *string        `json:"to_settle" doc:"what would call it; null: it is called, or has no limit"`
	Notes       []string       `json:"notes" doc:"what to ask before judging by it"`
	Findings    []form.Finding `json:"findings" doc:"notes and to_settle, with their numbers"`
}

// markSet is a mark as one setting of the protractor has it.
type markSet struct {
	Set         int     `json:"set"`
	Read        float64 `json:"read_deg" doc:"crank degrees after the set's own TDC"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Expanded    float64 `json:"expanded_uncertainty_deg"`
}

func (f encoder) marks() []judgedMark {
	list := []judgedMark{}
	for _, m := range f.AllMarks() {
		j := judgedMark{
			Name: m.Name, On: m.On, Against: said(m.Against), Uncertainty: m.Uncertainty.Degrees(),
			Expanded: m.Expanded.Degrees(), Source: said(f.source(m)), Notes: f.Bench().Findings(m.Notes), Findings: form.Findings(m.Findings(), f.Bench().Finding),
			Sets: []markSet{},
		}
		for _, s := range m.Sets {
			j.Sets = append(j.Sets, markSet{s.Set, s.Angle.Degrees(), s.Uncertainty.Degrees(), s.Expanded.Degrees()})
		}
		if m.ToSettle != nil {
			j.ToSettle = said(f.Bench().Finding(m.ToSettle))
		}
		if found.Located(m) {
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
func (j *judgedMark) judged(m mark.Judged) {
	j.Off = form.Finite(m.Angle.Degrees())
	if found.Located(m) {
		j.ShouldBe = form.Finite(words.Stated(m.Nominal))
	}
	if m.HasLimit {
		j.Verdict = said(string(m.Verdict))
	}
}

// source is where what a mark should be is from; empty when nobody said.
func (f encoder) source(m mark.Judged) string {
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
