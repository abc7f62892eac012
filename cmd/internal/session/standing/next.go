package standing

import (
	"fmt"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

// Plan says what to read next, or to look for, of the cylinder as it is read in the set at
// hand, with the crank turned one way by now.
func (j *State) Plan(setup evidence.Setup, ground plan.Ground, c evidence.Cylinder, turned evidence.TurnDirection) {
	if j.Seek = j.seek(setup, ground, c, turned); j.Seek == nil {
		j.Next = j.next(setup, ground)
	}
}

// seek is what to look for next; nil with another gauge, and where somebody judges depths.
func (j State) seek(setup evidence.Setup, ground plan.Ground, c evidence.Cylinder, turned evidence.TurnDirection) *Sought {
	if setup.Gauge.Kind != evidence.Borescope || len(c.Readings) > 0 || j.Set > 1 {
		return nil
	}
	looks, err := plan.Look(setup, ground)
	if err != nil {
		return nil
	}
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		planned := looks.Turned(turn)
		seen := plan.Looks{Views: c.Views, Dwell: c.Dwell}.Turned(turn)
		switch n := len(seen.Views); {
		case n < len(planned.Views):
			return &Sought{Words: fmt.Sprintf("Next: an equal view, turning %s. %sStop about %s TDC, pick an edge of the crown, and turn on until it stands "+
				"at the same place again. Type view and the two angles.", turn, first(turn, turned), fromTDC(planned.Views[n].Before)), Turn: turn}
		case len(seen.Dwell) < len(planned.Dwell):
			return &Sought{Words: fmt.Sprintf("Next: a dwell, turning slowly %s. %sType dwell and the angles where the crown stops moving and where it moves again.",
				turn, first(turn, turned)), Turn: turn}
		}
	}
	return &Sought{Words: "All looks that were planned are taken: more of them gain little. A dial gauge or a positive stop would be another witness.", Turn: evidence.Forward}
}

// next is the next best reading. Until TDC is determined it is one of the plan's that
// determine it.
func (j State) next(setup evidence.Setup, ground plan.Ground) *plan.Next {
	if r := j.Result; r != nil && len(r.Readings) > 0 {
		if next, ok := plan.After(*r, setup, ground); ok {
			return &next
		}
		return nil
	}
	for _, n := range []int{plan.Usual, ground.Fewest()} {
		if p, err := plan.Advise(setup, ground, n); err == nil {
			opening := p.Opening()
			point := opening[min(len(j.Current), len(opening)-1)]
			return &plan.Next{Place: point.Place, Drop: point.Drop}
		}
	}
	return nil
}

// first is what to type first where the crank is to be turned the other way.
func first(turn, turned evidence.TurnDirection) string {
	if turn == turned {
		return ""
	}
	return "Type " + turn.String()[:1] + " first. "
}

// fromTDC is an angle from TDC to a degree, and its side.
func fromTDC(a geometry.Angle) string {
	if a < 0 {
		return words.Fixed(-a.Degrees(), 0) + " deg before"
	}
	return words.Fixed(a.Degrees(), 0) + " deg after"
}
