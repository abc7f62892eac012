package data

import (
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/slip"
)

// moved is what moved while the readings were taken.
type moved struct {
	Kind             slip.Kind `json:"kind" enum:"protractor|gauge zero|turn"`
	After            int       `json:"after_reading" doc:"so many readings were taken before; of a turn, before the run whose turn is written wrongly"`
	To               *int      `json:"to_reading" doc:"of a turn, the last reading of the run"`
	Size             *float64  `json:"size_deg" doc:"by how much more the protractor reads since; null: it did not move"`
	Uncertainty      *float64  `json:"standard_uncertainty_deg"`
	Depth            *float64  `json:"size_mm" doc:"by how much more the gauge shows since; null: it did not move"`
	DepthUncertainty *float64  `json:"standard_uncertainty_mm"`
	Before           estimate  `json:"tdc_before" doc:"what the protractor read at TDC before"`
}

// moved is a move as protractor and gauge show it.
func (f encoder) moved(r tdc.Result) *moved {
	s := r.Slip
	if s == nil {
		return nil
	}
	m := moved{Kind: s.Kind, After: r.Taken + s.After, Before: f.estimate(s.Before)}
	switch s.Kind {
	case slip.Protractor:
		m.Size = form.Finite(f.Job.Setup.Protractor.Grows(geometry.Angle(s.Size)).Degrees())
		m.Uncertainty = form.Finite(geometry.Angle(s.Uncertainty).Degrees())
	case slip.GaugeZero:
		m.Depth, m.DepthUncertainty = form.Finite(s.Size), form.Finite(s.Uncertainty)
	case slip.Turn:
		to := r.Taken + s.To
		m.To = &to
	}
	return &m
}
