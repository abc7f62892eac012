package session

import (
	"fmt"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

// sought is what to look for next through a borescope, as it is planned, with the crank
// turned one way.
type sought struct {
	words string
	turn  evidence.TurnDirection
}

// seek is what to look for next; nil with another gauge, and where somebody judges depths.
func (s *Session) seek(c evidence.Cylinder) *sought {
	if s.Job.Setup.Gauge.Kind != evidence.Borescope || len(c.Readings) > 0 || s.set > 1 {
		return nil
	}
	looks, err := plan.Look(s.Job.Setup, s.Ground)
	if err != nil {
		return nil
	}
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		planned := looks.Turned(turn)
		seen := plan.Looks{Views: c.Views, Dwell: c.Dwell}.Turned(turn)
		switch n := len(seen.Views); {
		case n < len(planned.Views):
			return &sought{fmt.Sprintf("Next: an equal view, turning %s. %sStop about %s TDC, pick an edge of the crown, and turn on until it stands "+
				"at the same place again: type view and the two angles.", turn, s.first(turn), fromTDC(planned.Views[n].Before)), turn}
		case len(seen.Dwell) < len(planned.Dwell):
			return &sought{fmt.Sprintf("Next: a dwell, turning slowly %s. %sType dwell and the angles where the crown stops moving and where it moves again.",
				turn, s.first(turn)), turn}
		}
	}
	return &sought{"All looks that were planned are taken: more of them gain little. A dial gauge or a positive stop would be another witness.", evidence.Forward}
}

// first is what to type first where the crank is to be turned the other way.
func (s *Session) first(turn evidence.TurnDirection) string {
	if turn == s.turn {
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
