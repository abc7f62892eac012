package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
)

// Doubt is for what may have happened in the session beside what this adjustment takes
// for granted: TDC lies farther on by a shift, and its uncertainty holds a standard one
// more.
func (a *Adjustment) Doubt(shift, standard geometry.Angle) {
	a.shift, a.doubt = float64(shift), float64(standard)
}

// Averaged is TDC with that shift and doubt.
func (a *Adjustment) Averaged() gum.Estimate {
	return a.estimate(a.centre+a.best.Beta[curve.TDC]+a.shift, a.onScale(a.doubted(a.spread(a.ownParts()))))
}

// Estimate is an angle, in radians from the adjustment's centre, with such a half-width
// of its 95 % interval before the protractor's own error.
func (a *Adjustment) Estimate(angle, half float64) gum.Estimate {
	own := gum.Spread{Normal: []gum.Component{{Standard: half / gum.Normal95, Degrees: math.Inf(1)}}}
	return a.estimate(a.centre+angle, a.onScale(own))
}

// doubted is a spread of TDC, or of what is measured from it, with that doubt.
func (a *Adjustment) doubted(s gum.Spread) gum.Spread {
	if a.doubt > 0 {
		s.Normal = append(s.Normal, gum.Component{Standard: a.doubt, Degrees: math.Inf(1)})
	}
	return s
}
