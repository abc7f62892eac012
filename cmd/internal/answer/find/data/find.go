// Package data is what was found of a job as data: JSON and CSV, with every digit.
package data

import (
	"evendrop/cmd/internal/answer/find/found"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/form"
	"evendrop/tdc/mark"
)

type answer struct {
	form.Head
	Title     string       `json:"title"`
	Cylinders []cylinder   `json:"cylinders"`
	Throws    []throw      `json:"throws" doc:"each cylinder's TDC against its nominal spacing from cylinder 1's"`
	Marks     []judgedMark `json:"marks" doc:"lobes among them, each by its name: off_deg is its shift, and read_deg and should_be_deg are opening and closing, weighed alike"`
	Lobes     []lobeOf     `json:"lobes"`
	LobePairs []lobePair   `json:"lobe_pairs" doc:"an exhaust and an inlet lobe of one cylinder"`
	points
	Findings []form.Finding `json:"findings"` // of the marks, and of what they point to
	Cautions []string       `json:"cautions"`
}

// throw is a cylinder against the others; unknown is null.
type throw struct {
	Cylinder         int      `json:"cylinder"`
	Set              int      `json:"set" doc:"in which it is compared: the last that every cylinder was read in"`
	Off              float64  `json:"off_deg"`
	Uncertainty      float64  `json:"standard_uncertainty_deg"`
	Expanded         float64  `json:"expanded_uncertainty_deg"`
	CrownOff         *float64 `json:"crown_off_mm" doc:"lower than the others is positive; null: the gauge's zero is not shared"`
	CrownUncertainty *float64 `json:"crown_off_standard_uncertainty_mm" doc:"null: the gauge's zero is not shared"`
	Verdict          *string  `json:"verdict" doc:"within, outside, too close to call; null: no limit was given"`
	CrownVerdict     *string  `json:"crown_verdict" doc:"within, outside, too close to call; null: no limit was given, or the gauge's zero is not shared"`
}

// encoder makes the parts of the JSON from what was found.
type encoder struct{ found.All }

// JSON is the answer as JSON; what the marks come to is a sentence, or none.
func JSON(all found.All, headline string) ([]byte, error) {
	f := encoder{all}
	out := answer{
		Head: form.Format1, Title: f.Job.Title,
		Cylinders: []cylinder{}, Throws: []throw{},
		Marks: f.marks(), Lobes: f.lobes(), LobePairs: f.lobePairs(), points: f.points(headline), Cautions: []string{},
	}
	out.Findings = form.Findings(f.Findings(), f.Bench().Named)
	for i, r := range f.Results {
		c := f.cylinder(r)
		if i < len(f.Trials) {
			c.Trials = f.trials(f.Trials[i])
		}
		out.Cylinders = append(out.Cylinders, c)
	}
	for _, t := range f.Throws {
		j := throwOf(t)
		j.Set = f.ThrowSet()
		out.Throws = append(out.Throws, j)
	}
	for _, c := range caution.List {
		out.Cautions = append(out.Cautions, c.Hazard+": "+c.Advice)
	}
	return form.JSON(out)
}

func throwOf(t mark.JudgedThrow) throw {
	j := throw{Cylinder: t.Cylinder, Off: t.Angle.Degrees(), Uncertainty: t.Uncertainty.Degrees(), Expanded: t.Expanded.Degrees()}
	if t.Crown != nil {
		j.CrownOff, j.CrownUncertainty = &t.Crown.Value, &t.Crown.Uncertainty
	}
	j.Verdict, j.CrownVerdict = called(t.Verdict), called(t.CrownVerdict)
	return j
}

// called is a verdict for JSON, null where no limit was given.
func called(v mark.Verdict) *string {
	if v == mark.NoLimitSaid {
		return nil
	}
	text := string(v)
	return &text
}
