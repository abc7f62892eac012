package tdc

import (
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// GoBack is what the gauge should show when the crank is turned back to an angle
// either side of the TDC found: the test of the answer at the bench.
type GoBack struct {
	Angle         geometry.Angle // before and after TDC
	Before, After gum.Measured   // mm, as the gauge shows it, turned forward
}

// GoBack foretells the gauge; false when no depth was read.
func (r Result) GoBack(angle geometry.Angle) (GoBack, bool) {
	if len(r.Readings) == 0 {
		return GoBack{}, false
	}
	at := func(angle geometry.Angle) gum.Measured {
		depth, uncertainty := r.Expect(angle, evidence.Forward)
		return gum.Measured{Value: float64(depth), Uncertainty: float64(uncertainty)}
	}
	return GoBack{angle, at(r.TDC.Angle - angle), at(r.TDC.Angle + angle)}, true
}
