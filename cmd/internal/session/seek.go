package session

import (
	"fmt"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

// seek is what to look for next through a borescope, as it is planned; "" with another
// gauge, and once there is a view and a dwell or somebody judges depths.
func (s *Session) seek(c evidence.Cylinder) string {
	if s.Job.Setup.Gauge.Kind != evidence.Borescope || len(c.Readings) > 0 || len(c.Views) > 0 && len(c.Dwell) > 0 {
		return ""
	}
	looks, err := plan.Look(s.Job.Setup, s.Ground)
	switch {
	case err != nil:
		return ""
	case len(c.Views) == 0:
		return fmt.Sprintf("Next: an equal view, turning forward. Stop about %s deg before TDC, pick an edge of the crown, and turn on until it stands "+
			"at the same place again: type view and the two angles.", about(looks.Views[0].Before))
	}
	return "Next: a dwell, turning slowly forward: type dwell and the angles where the crown stops moving and where it moves again."
}

// about is an angle before TDC to a degree.
func about(a geometry.Angle) string { return words.Fixed(-a.Degrees(), 0) }
