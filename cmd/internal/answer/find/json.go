package find

import (
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/form"
	"evendrop/tdc/mark"
)

type findJSON struct {
	form.Head
	Title     string         `json:"title"`
	Cylinders []cylinderJSON `json:"cylinders"`
	Throws    []throwJSON    `json:"throws" doc:"each cylinder's TDC against its nominal spacing from cylinder 1's"`
	Marks     []markJSON     `json:"marks" doc:"lobes among them, each by its name: off_deg is its shift, and read_deg and should_be_deg are opening and closing, weighed alike"`
	Lobes     []lobeJSON     `json:"lobes"`
	LobePairs []lobePairJSON `json:"lobe_pairs" doc:"an exhaust and an inlet lobe of one cylinder"`
	pointsJSON
	Findings []form.Finding `json:"findings"` // of the marks, and of what they point to
	Cautions []string       `json:"cautions"`
}

// throwJSON is a cylinder against the others; unknown is null.
type throwJSON struct {
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

// JSON is the answer as JSON.
func (f Answer) JSON() ([]byte, error) {
	out := findJSON{
		Head: form.Format1, Title: f.Job.Title,
		Cylinders: []cylinderJSON{}, Throws: []throwJSON{},
		Marks: f.marksJSON(), Lobes: f.lobesJSON(), LobePairs: f.lobePairsJSON(), pointsJSON: f.PointsJSON(), Cautions: []string{},
	}
	out.Findings = form.Findings(f.findings(), f.bench().Named)
	for i, r := range f.Results {
		c := f.cylinderJSON(r)
		if i < len(f.Trials) {
			c.Trials = f.trialsJSON(f.Trials[i])
		}
		out.Cylinders = append(out.Cylinders, c)
	}
	for _, t := range f.Throws {
		j := throwJSONOf(t)
		j.Set = f.throwSet()
		out.Throws = append(out.Throws, j)
	}
	for _, c := range caution.List {
		out.Cautions = append(out.Cautions, c.Hazard+": "+c.Advice)
	}
	return form.JSON(out)
}

func throwJSONOf(t mark.JudgedThrow) throwJSON {
	j := throwJSON{Cylinder: t.Cylinder, Off: t.Angle.Degrees(), Uncertainty: t.Uncertainty.Degrees(), Expanded: t.Expanded.Degrees()}
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
