package planning

import (
	"evendrop/cmd/internal/answer/find/data"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
)

type planJSON struct {
	form.Head
	Title    string        `json:"title"`
	Reach    reachJSON     `json:"reach"`
	Readings []placeJSON   `json:"readings"`
	Closing  []int         `json:"closing" doc:"the numbers, from 1, of the readings to take again at the end"`
	Budget   []data.Source `json:"budget"`
	Even     float64       `json:"evenly_spaced_standard_uncertainty_deg"`
	OneWay   *float64      `json:"one_way_standard_uncertainty_deg" doc:"null: the plan is one way"`
	BothWays *float64      `json:"both_ways_standard_uncertainty_deg" doc:"null: the plan is both ways, or the crank may not be turned back"`
	Cautions []string      `json:"cautions"`
	Lobes    []lobeJSON    `json:"lobes"`
	Looks    *looksJSON    `json:"looks" doc:"null: another gauge than a borescope; else to be looked for rather than the readings taken, which would be judged by eye"`
}

type reachJSON struct {
	Uncertainty float64  `json:"standard_uncertainty_deg"`
	Expanded    float64  `json:"expanded_uncertainty_deg"`
	WithScale   float64  `json:"with_protractor_expanded_deg" doc:"95 % half-width of TDC, the protractor's own error in it"`
	Target      *float64 `json:"target_deg" doc:"null: none was asked for"`
	Reached     *bool    `json:"reached"`
}

type placeJSON struct {
	Drop        float64  `json:"drop_mm"`
	Angle       float64  `json:"angle_deg"`
	HalfAngle   float64  `json:"half_angle_deg"`
	Flank       string   `json:"flank" enum:"rising|falling"`
	Turn        string   `json:"turn" enum:"forward|backward"`
	Slope       float64  `json:"slope_mm_per_deg"`
	Uncertainty float64  `json:"angle_standard_uncertainty_deg"`
	Protractor  *float64 `json:"protractor_deg" doc:"where to stop, a whole degree; null: the readings so far do not tell TDC"`
}

// JSON is the plan as JSON.
func (p Plan) JSON() ([]byte, error) {
	out := planJSON{
		Head: form.Format1, Title: p.job.Title,
		Reach: reachJSON{Uncertainty: p.plan.Foreseen.AgreeTo.Uncertainty.Degrees(), Expanded: p.plan.Foreseen.AgreeTo.Expanded.Degrees(),
			WithScale: p.plan.Foreseen.TDC.Expanded.Degrees()},
		Readings: []placeJSON{}, Budget: []data.Source{}, Even: p.plan.Even.AgreeTo.Uncertainty.Degrees(), Cautions: p.cautions(), Lobes: p.lobesJSON(),
	}
	if p.target != nil {
		out.Reach.Target, out.Reach.Reached = new(words.Stated(*p.target)), &p.reached
	}
	for _, point := range p.plan.Points {
		out.Readings = append(out.Readings, placeJSON{
			point.Drop.Millimetres(), point.Angle.Degrees(), point.HalfAngle.Degrees(), flankOf(point.Place), point.Turn.String(),
			point.Slope.MillimetresPerDegree(), point.Uncertainty.Degrees(), nil,
		})
	}
	for i := range p.plan.Closing() {
		out.Closing = append(out.Closing, i+1)
	}
	for _, c := range p.plan.Foreseen.Budget {
		out.Budget = append(out.Budget, data.Source{Source: c.Source, Contribution: c.Angle.Degrees()})
	}
	if p.both != nil {
		out.BothWays = new(p.both.AgreeTo.Uncertainty.Degrees())
	}
	if p.looks != nil {
		out.Looks = new(p.looks.json())
	}
	if p.tdc != nil {
		for i, point := range p.plan.Points {
			out.Readings[i].Protractor = new(p.shows(p.stand(point.Place)))
		}
	}
	if p.other != nil {
		out.OneWay = new(p.other.AgreeTo.Uncertainty.Degrees())
	}
	return form.JSON(out)
}

// CSV is the places, a row each.
func (p Plan) CSV() ([]byte, error) {
	rows := [][]string{{"drop_mm", "angle_deg", "half_angle_deg", "flank", "turn", "slope_mm_per_deg", "angle_standard_uncertainty_deg"}}
	for _, point := range p.plan.Points {
		rows = append(rows, []string{
			form.Digits(point.Drop.Millimetres()), form.Digits(point.Angle.Degrees()), form.Digits(point.HalfAngle.Degrees()), flankOf(point.Place),
			point.Turn.String(), form.Digits(point.Slope.MillimetresPerDegree()), form.Digits(point.Uncertainty.Degrees()),
		})
	}
	return form.CSV(rows)
}
