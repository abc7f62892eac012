package adjust

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
)

// The sources of uncertainty, in the order they are listed.
const (
	AngleReadings = "angle readings"
	ScaleError    = "the protractor's own error"
	DepthReadings = "depth readings"
	LashSource    = "lash"
	ScaleSource   = "gauge scale and engine dimensions"
	OffsetSource  = "offset"
	OffCentre     = "wheel off centre"
	EyeLag        = "the eye's lag"
	Scatter       = "scatter beyond the instruments"
	MovedSource   = "what may have moved"
)

// Contribution is what one source adds to TDC's standard uncertainty; the
// contributions add up in quadrature.
type Contribution struct {
	Source string
	Angle  geometry.Angle
}

// budget is what each source contributes to TDC (JCGM 100 clause 8): the squares
// add up to the square of its standard uncertainty.
//
// The protractor's own error has a part by way of the readings, which it shares, and one
// where TDC comes on its scale.
func (a *Adjustment) budget(p solve.Parts) []Contribution {
	beyond := (sq(a.Widening.Factor) - 1) * p.Read()
	list := []Contribution{
		contribution(AngleReadings, p.Angle),
		contribution(ScaleError, p.Fresh+p.Common+a.Lines.Own),
		contribution(DepthReadings, p.Depth),
		contribution(curve.StopContacts, p.Pairs[curve.StopPair]),
		contribution(curve.DwellPairs, p.Pairs[curve.DwellPair]),
		contribution(curve.EqualViews, p.Pairs[curve.ViewPair]),
		contribution(LashSource, p.Prior[curve.Lash]),
		contribution(ScaleSource, p.Prior[curve.Scale]),
		contribution(OffsetSource, p.Prior[curve.Offset]),
		contribution(OffCentre, p.Prior[curve.WheelP]+p.Prior[curve.WheelQ]),
		contribution(EyeLag, p.Prior[curve.Eye]),
		contribution(Scatter, beyond),
		contribution(MovedSource, sq(float64(a.Doubt))),
	}
	return list
}

func contribution(source string, variance float64) Contribution {
	return Contribution{source, geometry.Angle(math.Sqrt(math.Max(0, variance)))}
}
