package report

import (
	"bytes"
	"encoding/json"
	"math"

	"evendrop/tdc"
)

// format is the version of the JSON; fields may be added to it, none changed.
const format = 1

type findJSON struct {
	Program      string            `json:"program"`
	Format       int               `json:"format"`
	Title        string            `json:"title"`
	Cylinders    []cylinderJSON    `json:"cylinders"`
	Throws       []throwJSON       `json:"throws"`
	Marks        []markJSON        `json:"marks"`
	Explanations []explanationJSON `json:"explanations"`
	TellApart    []string          `json:"tell_apart"`
	Cautions     []string          `json:"cautions"`
}

type cylinderJSON struct {
	Number                int            `json:"number"`
	TDC                   tdcJSON        `json:"tdc"`
	Methods               []methodJSON   `json:"methods"`
	Agreement             *agreementJSON `json:"agreement"`
	CrownDepth            float64        `json:"crown_depth_mm"`
	CrownDepthUncertainty float64        `json:"crown_depth_standard_uncertainty_mm"`
	Lash                  float64        `json:"lash_mm"`
	LashUncertainty       float64        `json:"lash_standard_uncertainty_mm"`
	Scale                 float64        `json:"scale"`
	ScaleUncertainty      float64        `json:"scale_standard_uncertainty"`
	Budget                []sourceJSON   `json:"budget"`
	Readings              []readingJSON  `json:"readings"`
	WithAll               *tdcJSON       `json:"tdc_with_every_reading_trusted"`
	Warnings              []string       `json:"warnings"`
}

type tdcJSON struct {
	Protractor  float64    `json:"protractor_deg"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Interval    [2]float64 `json:"interval95_deg"`
	Degrees     *float64   `json:"degrees_of_freedom"` // null: none of it was estimated from scatter
}

type methodJSON struct {
	Name        string  `json:"name"`
	Protractor  float64 `json:"protractor_deg"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Readings    int     `json:"readings"`
}

type agreementJSON struct {
	Difference float64 `json:"difference_deg"`
	Limit      float64 `json:"limit_deg"`
	Agrees     bool    `json:"agrees"`
}

type sourceJSON struct {
	Source       string  `json:"source"`
	Contribution float64 `json:"contribution_deg"`
}

type readingJSON struct {
	File     string  `json:"file"`
	Line     int     `json:"line"`
	Angle    float64 `json:"angle_deg"`
	Depth    float64 `json:"depth_mm"`
	Residual float64 `json:"residual_mm"`
	Weight   float64 `json:"weight"`
	Suspect  bool    `json:"suspect"`
}

type throwJSON struct{}

type markJSON struct {
	Name        string   `json:"name"`
	On          string   `json:"on"`
	Off         float64  `json:"off_deg"`
	Uncertainty float64  `json:"standard_uncertainty_deg"`
	Expanded    float64  `json:"expanded_uncertainty_deg"`
	Limit       *float64 `json:"limit_deg"`
	Verdict     *string  `json:"verdict"`
}

type explanationJSON struct{}

// JSON is the answer as JSON.
func (f Find) JSON() ([]byte, error) {
	out := findJSON{
		Program: "evendrop", Format: format, Title: f.Job.Title,
		Cylinders: []cylinderJSON{}, Throws: []throwJSON{}, Marks: []markJSON{},
		Explanations: []explanationJSON{}, TellApart: []string{}, Cautions: []string{},
	}
	for _, r := range f.Results {
		out.Cylinders = append(out.Cylinders, f.cylinderJSON(r))
	}
	for _, m := range f.Marks {
		j := markJSON{
			Name: m.Name, On: m.On, Off: m.Angle.Degrees(), Uncertainty: m.Uncertainty.Degrees(), Expanded: m.Expanded.Degrees(),
		}
		if m.HasLimit {
			limit, verdict := m.Limit.Degrees(), string(m.Verdict)
			j.Limit, j.Verdict = &limit, &verdict
		}
		out.Marks = append(out.Marks, j)
	}
	for _, c := range cautionList {
		out.Cautions = append(out.Cautions, c.hazard+": "+c.advice)
	}
	return encode(out)
}

// encode writes indented JSON with text as it is.
func encode(value any) ([]byte, error) {
	var buffer bytes.Buffer
	encoder := json.NewEncoder(&buffer)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	err := encoder.Encode(value)
	return buffer.Bytes(), err
}

func (f Find) cylinderJSON(r tdc.Result) cylinderJSON {
	c := cylinderJSON{
		Number: r.Number, TDC: f.tdcJSON(r.TDC),
		CrownDepth: r.CrownDepth.Value, CrownDepthUncertainty: r.CrownDepth.Uncertainty,
		Lash: r.Lash.Value, LashUncertainty: r.Lash.Uncertainty,
		Scale: r.Scale.Value, ScaleUncertainty: r.Scale.Uncertainty,
		Warnings: append([]string{}, r.Warnings...),
	}
	for _, m := range r.Methods {
		c.Methods = append(c.Methods, methodJSON{m.Name, f.shown(m.Angle).Degrees(), m.Uncertainty.Degrees(), m.Readings})
	}
	if r.Agreement != nil {
		c.Agreement = &agreementJSON{r.Agreement.Difference.Degrees(), r.Agreement.Limit.Degrees(), r.Agreement.Agrees()}
	}
	for _, b := range r.Budget {
		c.Budget = append(c.Budget, sourceJSON{b.Source, b.Angle.Degrees()})
	}
	for _, j := range r.Readings {
		c.Readings = append(c.Readings, readingJSON{
			j.File, j.Line, f.shown(j.Angle).Degrees(), f.Job.Setup.Gauge.Falling(j.Depth).Millimetres(),
			j.Residual.Millimetres(), j.Weight, j.Suspect,
		})
	}
	if r.WithAll != nil {
		all := f.tdcJSON(*r.WithAll)
		c.WithAll = &all
	}
	return c
}

// tdcJSON is an estimate as the protractor shows it. The interval is about the
// reading and may pass the protractor's end, so that its low end is the lower.
func (f Find) tdcJSON(e tdc.Estimate) tdcJSON {
	shown, half := f.shown(e.Angle).Degrees(), e.Expanded.Degrees()
	return tdcJSON{shown, e.Uncertainty.Degrees(), [2]float64{shown - half, shown + half}, finite(e.DegreesOfFreedom)}
}

// finite is a number for JSON, null when it is infinite.
func finite(x float64) *float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) || x > 1e9 {
		return nil
	}
	return &x
}
