package lobe

import (
	"evendrop/fit/gum"
	"evendrop/tdc/adjust/position"
)

// Pair is an exhaust and an inlet lobe of one cylinder.
type Pair struct {
	Separation gum.Estimate // of their centres, degrees of the cam
	Overlap    gum.Estimate // for how long both are open, crank; negative where neither is
}

// Paired is two lobes of one cylinder that were read on one setting of the protractor;
// false where either was not measured.
func Paired(exhaust, inlet Measured) (Pair, bool) {
	if exhaust.Events == nil || inlet.Events == nil || exhaust.Valve != Exhaust || inlet.Valve != Inlet || exhaust.Cylinder != inlet.Cylinder {
		return Pair{}, false
	}
	x, n := exhaust.Events, inlet.Events
	separation := less(n.Centre, x.Centre)
	separation.Angle, separation.Uncertainty, separation.Expanded = separation.Angle/2, separation.Uncertainty/2, separation.Expanded/2
	return Pair{Separation: separation, Overlap: less(x.Closes, n.Opens)}, true
}

// less is the difference of two quantities: what they share cancels.
func less(a, b Quantity) gum.Estimate {
	return position.Less(a.Seen, b.Seen).Estimate(a.Angle - b.Angle)
}
