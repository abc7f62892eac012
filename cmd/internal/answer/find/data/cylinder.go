package data

import (
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

type cylinder struct {
	Number                int            `json:"number"`
	TDC                   determined     `json:"tdc"`
	Sets                  []set          `json:"sets" doc:"TDC on each setting of the protractor, the last one's being tdc"`
	CannotTell            *string        `json:"cannot_tell" doc:"why tdc is not an answer to go by; null: it is one"`
	Moved                 float64        `json:"moved_probability" doc:"that something moved while the readings were taken; 0: too few readings to tell"`
	SessionSlip           *moved         `json:"session_slip" doc:"what moved while the readings were taken: tdc is what holds at their end; null: nothing is found to have"`
	Methods               []method       `json:"methods"`
	Agreement             *agreement     `json:"agreement" doc:"equal drop against curve fit; null: one of them has no answer"`
	Midpoints             *midpoints     `json:"midpoints" doc:"how the midpoints of equal drop go with the drop; null: no depth was read on both sides"`
	CrownDepth            *float64       `json:"crown_depth_mm" doc:"what the gauge shows at TDC; null: no depth was read"`
	CrownDepthUncertainty *float64       `json:"crown_depth_standard_uncertainty_mm"`
	Lash                  *float64       `json:"lash_mm" doc:"null: nothing read depends on it"`
	LashUncertainty       *float64       `json:"lash_standard_uncertainty_mm"`
	Scale                 *float64       `json:"scale" doc:"of the gauge, 1 when it stands straight and the engine is as stated; null: no depth was read"`
	ScaleUncertainty      *float64       `json:"scale_standard_uncertainty"`
	Dwell                 *dwell         `json:"dwell" doc:"what the dwell pairs say of the eye; null: none were seen"`
	Budget                []Source       `json:"budget"`
	Readings              []reading      `json:"readings"`
	WithAll               *estimate      `json:"tdc_with_every_reading_trusted" doc:"null: no reading is suspect"`
	Trials                *trials        `json:"trials" doc:"of the whole job, by JCGM 101; null: none were asked for"`
	GoBack                *goBack        `json:"go_back" doc:"what the gauge should show either side of TDC, turned forward; null: no depth was read, or in doubt which side is which"`
	Warnings              []string       `json:"warnings" doc:"of the last set"`
	Findings              []form.Finding `json:"findings" doc:"the warnings, with their numbers"`
}

type method struct {
	Name        string  `json:"name" enum:"equal drop|curve fit|stops|dwell|equal views"`
	Protractor  float64 `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Readings    int     `json:"readings" doc:"that had a part in it"`
}

type agreement struct {
	Difference float64 `json:"difference_deg" doc:"equal drop less curve fit"`
	Limit      float64 `json:"limit_deg" doc:"95 % bound on it by chance"`
	Agrees     bool    `json:"agrees"`
}

type dwell struct {
	Resolved float64  `json:"resolved_mm" doc:"the drop at which motion was no longer seen"`
	Lag      *float64 `json:"lag_deg" doc:"how late the dwell came each way; null: it was seen turning one way only"`
}

// Source is what one source contributes to the uncertainty of TDC.
type Source struct {
	Source       string  `json:"source"`
	Contribution float64 `json:"contribution_deg" doc:"squares add up to that of TDC's standard uncertainty"`
}

type reading struct {
	File     string  `json:"file"`
	Line     int     `json:"line"`
	Angle    float64 `json:"angle_deg" doc:"as the protractor shows it"`
	Depth    float64 `json:"depth_mm" doc:"as the gauge shows it"`
	Residual float64 `json:"residual_mm" doc:"depth read less the curve's"`
	Weight   float64 `json:"weight" doc:"1 to 0"`
	Suspect  bool    `json:"suspect"`
	Set      int     `json:"set" doc:"from 1: the setting of the protractor that it was read on"`
}

// goBack is what the gauge should show either side of TDC, turned forward.
type goBack struct {
	Angle             float64 `json:"angle_deg" doc:"either side of TDC"`
	Before            float64 `json:"before_mm" doc:"as the gauge shows it, before TDC"`
	BeforeUncertainty float64 `json:"before_standard_uncertainty_mm"`
	After             float64 `json:"after_mm" doc:"as the gauge shows it, after TDC"`
	AfterUncertainty  float64 `json:"after_standard_uncertainty_mm"`
}

func (f encoder) cylinder(r tdc.Result) cylinder {
	c := cylinder{
		Number: r.Number, TDC: f.determined(r), CannotTell: said(f.Untold(r)),
		Moved: r.Moved, SessionSlip: f.moved(r), GoBack: back(r), Midpoints: f.midpoints(r), Dwell: dwelt(r.Dwell),
		Methods: []method{}, Budget: []Source{}, Readings: []reading{},
		Warnings: append([]string{}, f.Bench().Findings(r.Findings)...), Findings: form.Findings(r.Findings, f.Bench().Finding),
	}
	c.CrownDepth, c.CrownDepthUncertainty = known(r.CrownDepth)
	c.Lash, c.LashUncertainty = known(r.Lash)
	c.Scale, c.ScaleUncertainty = known(r.Scale)
	for _, m := range r.Methods {
		c.Methods = append(c.Methods, method{m.Name, f.Shown(m.Angle).Degrees(), m.Uncertainty.Degrees(), m.Readings})
	}
	if r.Agreement != nil {
		c.Agreement = &agreement{r.Agreement.Difference.Degrees(), r.Agreement.Limit.Degrees(), r.Agreement.Agrees()}
	}
	for _, b := range r.Budget {
		c.Budget = append(c.Budget, Source{b.Source, b.Angle.Degrees()})
	}
	for _, s := range r.Sets() {
		c.Sets = append(c.Sets, f.set(s))
		for _, j := range s.Readings {
			c.Readings = append(c.Readings, reading{
				j.File, j.Line, words.Stated(f.Shown(j.Angle)), f.Job.Setup.Gauge.Falling(j.Depth).Millimetres(),
				j.Residual.Millimetres(), j.Weight, j.Suspect, evidence.SetOf(j.Set),
			})
		}
	}
	if r.WithAll != nil {
		all := f.estimate(*r.WithAll)
		c.WithAll = &all
	}
	return c
}

// known is a value and its uncertainty, null where they are not known.
func known(m gum.Measured) (value, uncertainty *float64) {
	return form.Finite(m.Value), form.Finite(m.Uncertainty)
}

func back(r tdc.Result) *goBack {
	g, ok := r.GoBack(10 * geometry.Degree)
	if !ok || r.AgainstTurn() {
		return nil
	}
	return &goBack{words.Stated(g.Angle), g.Before.Value, g.Before.Uncertainty, g.After.Value, g.After.Uncertainty}
}

func dwelt(d *adjust.Dwell) *dwell {
	if d == nil {
		return nil
	}
	out := dwell{Resolved: d.Resolved.Millimetres()}
	if d.Lag != nil {
		lag := d.Lag.Degrees()
		out.Lag = &lag
	}
	return &out
}
