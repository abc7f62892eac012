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
		places[i] = Place{u + geometry.Angle(a.shift), turn}
	}
	p := probe(a.setup, a.crank, a.best.Beta[curve.TDC], places)
	depth, slope, _ := p.evaluate(a.best.Beta, p.angle)
	points := make([]CurvePoint, len(fromTDC))
	for i, u := range fromTDC {
		points[i] = CurvePoint{u, geometry.Length(depth[i] - a.best.Beta[curve.Zero]), geometry.Slope(slope[i])}
	}
	return points
}

// Below is how far a depth of Readings lies below what the gauge shows at TDC.
func (a *Adjustment) Below(depth geometry.Length) geometry.Length {
	return depth - geometry.Length(a.best.Beta[curve.Zero])
}

// ResidualUncertainty is the standard uncertainty that the instruments leave a
// residual at a point of the curve: the gauge's, and the protractor's by the
// slope.
func (a *Adjustment) ResidualUncertainty(p CurvePoint) geometry.Length {
	setup := a.setup
	return geometry.Length(math.Hypot(float64(setup.Gauge.Uncertainty()), float64(p.Slope)*float64(setup.Protractor.Uncertainty())))
}
