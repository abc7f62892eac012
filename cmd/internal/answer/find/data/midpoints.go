package data

import (
	"evendrop/tdc"
	"evendrop/tdc/halve"
)

// midpoints is how the midpoints of equal drop go with the drop.
type midpoints struct {
	Pattern halve.Pattern `json:"pattern" enum:"flat|shrinking with drop|growing with drop|one level apart|none that a single cause makes|too few levels to say"`
	Lash    *float64      `json:"lash_mm" doc:"of shrinking with drop"`
	Growth  *float64      `json:"growth_deg_per_mm" doc:"of growing with drop"`
	Line    *int          `json:"line" doc:"of one level apart"`
	Levels  []level       `json:"levels"`
}

type level struct {
	Drop        float64 `json:"drop_mm"`
	Protractor  float64 `json:"protractor_deg" doc:"what the protractor reads at TDC, in its own convention"`
	Uncertainty float64 `json:"standard_uncertainty_deg"`
	Turn        *string `json:"turn" enum:"forward|backward" doc:"null: the flanks were read in different directions"`
}

func (f encoder) midpoints(r tdc.Result) *midpoints {
	if len(r.Levels) == 0 {
		return nil
	}
	m := midpoints{Pattern: r.Trend.Pattern}
	switch r.Trend.Pattern {
	case halve.LikeLash:
		m.Lash = &r.Trend.Lash.Value
	case halve.LikeOffset:
		m.Growth = &r.Trend.Growth.Value
	case halve.OneLevel:
		m.Line = &r.Trend.Line
	}
	for _, l := range r.Levels {
		level := level{l.Drop.Millimetres(), f.Shown(l.Midpoint).Degrees(), l.Uncertainty.Degrees(), nil}
		if l.Turn != 0 {
			turn := l.Turn.String()
			level.Turn = &turn
		}
		m.Levels = append(m.Levels, level)
	}
	return &m
}
