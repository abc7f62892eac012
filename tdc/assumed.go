package tdc

import "evendrop/geometry"

// Assumed holds the engine dimensions that nobody stated and that were assumed
// to draw the curve; nought where the stated one was used.
type Assumed struct {
	Stroke, Rod geometry.Length
	RodKnownTo  geometry.Length // half-width of the assumed rod
}

// Engines of any make have a rod of 1.3 to 2.1 strokes, and a stroke near their
// bore (common practice, no source).
const (
	assumedStroke       = 85 * geometry.Millimetre
	assumedRodRatio     = 1.7
	assumedRodRatioHalf = 0.4
)

// withAssumed is the engine's kinematics with what is unknown assumed.
func withAssumed(e Engine) (geometry.SliderCrank, Assumed, error) {
	var assumed Assumed
	if e.Stroke == 0 {
		switch {
		case e.Rod > 0:
			assumed.Stroke = e.Rod / assumedRodRatio
		case e.Bore > 0:
			assumed.Stroke = e.Bore
		default:
			assumed.Stroke = assumedStroke
		}
		e.Stroke = assumed.Stroke
	}
	if e.Rod == 0 {
		assumed.Rod = assumedRodRatio * e.Stroke
		assumed.RodKnownTo = assumedRodRatioHalf * e.Stroke
		e.Rod = assumed.Rod
	}
	crank, err := e.SliderCrank()
	return crank, assumed, err
}
