package adjust

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
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
func (a *Adjustment) budget(p parts) []Contribution {
	beyond := (sq(a.widening.factor) - 1) * p.read()
	list := []Contribution{
		contribution(AngleReadings, p.angle),
		contribution(ScaleError, p.fresh+p.common+a.scale.own),
		contribution(DepthReadings, p.depth),
		contribution(curve.StopContacts, p.pairs[curve.StopPair]),
		contribution(curve.DwellPairs, p.pairs[curve.DwellPair]),
		contribution(curve.EqualViews, p.pairs[curve.ViewPair]),
		contribution(LashSource, p.prior[curve.Lash]),
		contribution(ScaleSource, p.prior[curve.Scale]),
		contribution(OffsetSource, p.prior[curve.Offset]),
		contribution(OffCentre, p.prior[curve.WheelP]+p.prior[curve.WheelQ]),
		contribution(EyeLag, p.prior[curve.Eye]),
		contribution(Scatter, beyond),
		contribution(MovedSource, sq(a.doubt)),
	}
	return list
}

func contribution(source string, variance float64) Contribution {
	return Contribution{source, geometry.Angle(math.Sqrt(math.Max(0, variance)))}
}
