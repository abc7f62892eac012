package evidence

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

// WithAssumed is the engine's kinematics with what is unknown assumed; an error of
// dimensions that cannot turn.
func WithAssumed(e Engine) (geometry.SliderCrank, Assumed, error) {
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

// Kinematics is that of WithAssumed. An error is of dimensions that cannot turn.
func (s Setup) Kinematics() (geometry.SliderCrank, error) {
	crank, _, err := WithAssumed(s.Engine)
	return crank, err
}

// ThrowToTDC is how far after throw-along-bore the piston's TDC comes, and the
// half-width that the doubt in the offset leaves it; an error as WithAssumed has it.
func (s Setup) ThrowToTDC() (angle, halfWidth geometry.Angle, err error) {
	crank, err := s.Kinematics()
	if err != nil {
		return 0, 0, err
	}
	return crank.TDC(), geometry.Angle(s.Engine.KnownTo.Offset / crank.Top()), nil
}
