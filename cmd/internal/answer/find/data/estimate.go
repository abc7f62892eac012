package data

import (
	"evendrop/cmd/internal/form"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

type estimate struct {
	Protractor  float64    `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Interval    [2]float64 `json:"interval95_deg" doc:"low and high end; may pass the end of the protractor's scale"`
	Degrees     *float64   `json:"degrees_of_freedom" doc:"null: no part of the uncertainty was estimated from scatter"`
}

type determined struct {
	estimate
	AgreeTo float64 `json:"readings_expanded_deg" doc:"95 % half-width of what the readings agree to, before the protractor's own error"`
}

// set is a cylinder on one setting of the protractor.
type set struct {
	Set        int            `json:"set"`
	TDC        determined     `json:"tdc"`
	CannotTell *string        `json:"cannot_tell" doc:"why tdc is not an answer to go by; null: it is one"`
	Readings   int            `json:"readings"`
	Warnings   []string       `json:"warnings"`
	Findings   []form.Finding `json:"findings" doc:"the warnings, with their numbers"`
}

type trials struct {
	Count       int        `json:"count"`
	Seed        uint64     `json:"seed"`
	Protractor  float64    `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Symmetric   [2]float64 `json:"interval95_deg" doc:"as much beyond either end"`
	Shortest    [2]float64 `json:"shortest95_deg" doc:"the shortest such"`
}

// set is one set's TDC, and what weakens it.
func (f encoder) set(r tdc.Result) set {
	return set{
		evidence.SetOf(r.Set), f.determined(r), said(f.Untold(r)), len(r.Readings),
		append([]string{}, f.Bench().Findings(r.Findings)...), form.Findings(r.Findings, f.Bench().Finding),
	}
}

// trials is the trials as the protractor shows them.
func (f encoder) trials(t adjust.Trials) *trials {
	return &trials{
		t.Count, t.Seed, f.Shown(t.Estimate).Degrees(), t.Uncertainty.Degrees(),
		f.interval(t.Estimate, t.Symmetric), f.interval(t.Estimate, t.Shortest),
	}
}

// determined is TDC with what the readings agree to.
func (f encoder) determined(r tdc.Result) determined {
	return determined{f.estimate(r.TDC), r.AgreeTo.Expanded.Degrees()}
}

// estimate is an estimate as the protractor shows it.
func (f encoder) estimate(e gum.Estimate) estimate {
	ends := [2]geometry.Angle{e.Angle - e.Expanded, e.Angle + e.Expanded}
	return estimate{f.Shown(e.Angle).Degrees(), e.Uncertainty.Degrees(), f.interval(e.Angle, ends), form.Finite(e.DegreesOfFreedom)}
}

// interval is one about an angle as the protractor shows it, its low end first. It
// goes on from what is shown and may pass the protractor's end.
func (f encoder) interval(about geometry.Angle, ends [2]geometry.Angle) (shown [2]float64) {
	for i, end := range f.Job.Setup.Protractor.LowFirst(ends) {
		shown[i] = (f.Shown(about) + f.Job.Setup.Protractor.Grows(end-about)).Degrees()
	}
	return shown
}
