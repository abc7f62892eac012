package planning

import "evendrop/fit/gum"

// looksJSON is what to look for through a borescope; half-widths at 95 %.
type looksJSON struct {
	Dwell       []dwellJSON `json:"dwell"`
	Views       []viewJSON  `json:"views"`
	Together    float64     `json:"expanded_uncertainty_deg" doc:"of all of them, the protractor's own error in it, as in the others"`
	ByDwell     float64     `json:"dwell_expanded_deg"`
	ByViews     float64     `json:"views_expanded_deg"`
	DwellOneWay *float64    `json:"dwell_one_way_expanded_deg" doc:"null: they are turned one way"`
	Dial        float64     `json:"dial_expanded_deg" doc:"by a dial gauge instead"`
	Stop        float64     `json:"stop_expanded_deg" doc:"by a positive stop instead"`
}

// dwellJSON is about where motion ends and begins.
type dwellJSON struct {
	Still float64 `json:"still_deg"`
	Moves float64 `json:"moves_deg"`
	Turn  string  `json:"turn" enum:"forward|backward"`
}

// viewJSON is about where the picture is the same.
type viewJSON struct {
	First  float64 `json:"first_deg"`
	Second float64 `json:"second_deg"`
	Turn   string  `json:"turn" enum:"forward|backward"`
}

func (l looksPlan) json() looksJSON {
	wide := func(e gum.Estimate) float64 { return e.Expanded.Degrees() }
	out := looksJSON{Dwell: []dwellJSON{}, Views: []viewJSON{}, Together: wide(l.Foreseen.TDC),
		ByDwell: wide(l.ByDwell), ByViews: wide(l.ByViews), Dial: wide(l.Dial), Stop: wide(l.Stop)}
	for _, d := range l.Dwell {
		out.Dwell = append(out.Dwell, dwellJSON{d.Still.Degrees(), d.Moves.Degrees(), d.Turn.String()})
	}
	for _, v := range l.Views {
		out.Views = append(out.Views, viewJSON{v.Before.Degrees(), v.After.Degrees(), v.Turn.String()})
	}
	if l.DwellOneWay != nil {
		out.DwellOneWay = new(wide(*l.DwellOneWay))
	}
	return out
}
