package planning

import (
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
	"evendrop/tdc/plan/lobes"
)

// lobeJSON is where to read a lobe, and what that will reach.
type lobeJSON struct {
	Name     string         `json:"name"`
	Needed   int            `json:"needed" doc:"how many of the lifts tell opening, closing and shift"`
	Lifts    []liftJSON     `json:"lifts" doc:"in the order to read them, turning forward; none: findings say why"`
	Left     []int          `json:"left" doc:"the numbers, from 1, of those that are still to be read"`
	Reach    *lobeReachJSON `json:"reach" doc:"null: nothing is planned"`
	Findings []form.Finding `json:"findings" doc:"what to know beforehand"`
	Lacking  []form.Finding `json:"lacking" doc:"what the readings so far lack"`
}

// liftJSON is a place to read.
type liftJSON struct {
	Flank      string   `json:"flank" enum:"opening|closing|top"`
	Lift       float64  `json:"lift_mm" doc:"as the gauge shows it, about"`
	Share      float64  `json:"share_of_top"`
	Angle      *float64 `json:"angle_deg" doc:"crank after TDC, about; null: not known beforehand"`
	Protractor *float64 `json:"protractor_deg" doc:"as the protractor shows it, about; null: the piston was not read"`
	For        string   `json:"for" enum:"event|shape|top"`
	Read       bool     `json:"read" doc:"the readings so far have it"`
}

// lobeReachJSON is half-widths at 95 %.
type lobeReachJSON struct {
	Opens    boundJSON  `json:"opens"`
	Closes   boundJSON  `json:"closes"`
	Duration boundJSON  `json:"duration"`
	Centre   boundJSON  `json:"centre"`
	Shift    *boundJSON `json:"shift" doc:"null: there is no card to compare with"`
	Missing  *float64   `json:"lift_offset_mm" doc:"null: the card has no opening and closing"`
}

// boundJSON is a half-width at 95 %.
type boundJSON struct {
	AgreeTo float64 `json:"readings_expanded_deg" doc:"before the protractor's own error"`
	Known   float64 `json:"expanded_uncertainty_deg"`
}

func boundOf(b lobes.Bound) boundJSON { return boundJSON{b.AgreeTo.Degrees(), b.Known.Degrees()} }

func (p Plan) lobesJSON() []lobeJSON {
	list, word := []lobeJSON{}, p.bench().Finding
	for _, l := range p.lobes {
		j := lobeJSON{Name: l.Name, Needed: l.Needed(), Lifts: []liftJSON{}, Left: append([]int{}, l.Left()...),
			Findings: form.Findings(l.Findings, word), Lacking: form.Findings(l.Lacking, word)}
		for _, point := range l.Points {
			j.Lifts = append(j.Lifts, p.liftJSON(l, point))
		}
		if len(l.Points) > 0 {
			j.Reach = reachOf(l.Reach)
		}
		list = append(list, j)
	}
	return list
}

func (p Plan) liftJSON(l lobePlan, point lobes.Point) liftJSON {
	j := liftJSON{Flank: string(point.Flank), Lift: point.Lift.Millimetres(), Share: point.Share, For: string(point.Use), Read: point.Read}
	if point.Angle != nil {
		j.Angle = new(point.Angle.Degrees())
		if l.TDC != nil {
			j.Protractor = new(p.shows(*l.TDC + *point.Angle))
		}
	}
	return j
}

// shows is a crank angle as the job's protractor shows it, degrees.
func (p Plan) shows(crank geometry.Angle) float64 {
	return p.job.Setup.Protractor.Shows(crank).Degrees()
}

func reachOf(r lobes.Reach) *lobeReachJSON {
	out := &lobeReachJSON{Opens: boundOf(r.Opens), Closes: boundOf(r.Closes), Duration: boundOf(r.Duration), Centre: boundOf(r.Centre)}
	if r.Shift != nil {
		out.Shift = new(boundOf(*r.Shift))
	}
	if r.Missing > 0 {
		out.Missing = new(r.Missing.Millimetres())
	}
	return out
}
