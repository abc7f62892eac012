package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
)

// Adjustment is what a solution says of TDC and of the engine, with what may have happened
// in the session beside what it takes for granted: TDC lies farther on by a shift, and its
// uncertainty holds a doubt more, a standard one.
type Adjustment struct {
	*solve.Solved
	Shift, Doubt geometry.Angle
}

// Averaged is TDC with that shift and doubt.
func (a *Adjustment) Averaged() gum.Estimate {
	at := geometry.Angle(a.Centre + a.Best.Beta[curve.TDC] + float64(a.Shift)).Signed()
	return a.OnScale(a.doubted(a.Spread(a.OwnParts()))).Estimate(at)
}

// doubted is a spread of TDC, or of what is measured from it, with that doubt.
func (a *Adjustment) doubted(s gum.Spread) gum.Spread {
	if a.Doubt > 0 {
		s.Normal = append(s.Normal, gum.Component{Standard: float64(a.Doubt), Degrees: math.Inf(1)})
	}
	return s
}
