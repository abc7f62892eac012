package adjust

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
)

// CurvePoint is a point of the fitted curve: what the gauge should show with the
// protractor at an angle.
type CurvePoint struct {
	Angle geometry.Angle  // crank, from TDC as the protractor shows it
	Below geometry.Length // what the gauge shows below what it shows at TDC
	// Slope is how fast Below grows with Angle.
	Slope geometry.Slope
}

// Curve is the fitted curve at angles from TDC, with the crank turned one way.
func (a *Adjustment) Curve(turn evidence.TurnDirection, fromTDC []geometry.Angle) []CurvePoint {
	places := make([]Place, len(fromTDC))
	for i, u := range fromTDC {
		places[i] = Place{u + a.Shift, turn}
	}
	p := probe(a.Setup, a.Crank, a.Best.Beta[curve.TDC], places)
	depth, slope, _ := p.Evaluate(a.Best.Beta, p.Angle)
	points := make([]CurvePoint, len(fromTDC))
	for i, u := range fromTDC {
		points[i] = CurvePoint{u, geometry.Length(depth[i] - a.Best.Beta[curve.Zero]), geometry.Slope(slope[i])}
	}
	return points
}

// Below is how far a depth of Readings lies below what the gauge shows at TDC.
func (a *Adjustment) Below(depth geometry.Length) geometry.Length {
	return depth - geometry.Length(a.Best.Beta[curve.Zero])
}

// ResidualUncertainty is the standard uncertainty that the instruments leave a
// residual at a point of the curve: the gauge's, and the protractor's by the
// slope.
func (a *Adjustment) ResidualUncertainty(p CurvePoint) geometry.Length {
	setup := a.Setup
	return geometry.Length(math.Hypot(float64(setup.Gauge.Uncertainty()), float64(p.Slope)*float64(setup.Protractor.Uncertainty())))
}
