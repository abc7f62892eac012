package mark

import (
	"fmt"
	"math"

	"evendrop/geometry"
)

// Turn is the angle that an amount of a unit makes on the member it was measured
// on: 360/pitches a tooth, length/radius along an arc, 2 asin(c/2r) across a
// chord. What cannot be such an angle is an error.
func Turn(amount float64, unit Unit, pitches int, radius geometry.Length) (geometry.Angle, error) {
	switch unit {
	case CrankDegrees, CamDegrees:
		return geometry.Angle(amount) * geometry.Degree, nil
	case Teeth:
		if pitches < 1 {
			return 0, fmt.Errorf("teeth need the number of pitches round the wheel")
		}
		return geometry.Angle(amount) * geometry.Turn / geometry.Angle(pitches), nil
	}
	if radius <= 0 {
		return 0, fmt.Errorf("millimetres need the radius they were measured at")
	}
	ratio := amount / radius.Millimetres()
	switch unit {
	case Arc:
		return geometry.Angle(ratio), nil
	case Chord:
		if math.Abs(ratio) > 2 {
			return 0, fmt.Errorf("a chord of %s mm does not fit a circle of radius %v", geometry.Decimal(amount, 9), radius)
		}
		return geometry.Angle(2 * math.Asin(ratio/2)), nil
	}
	return 0, fmt.Errorf("%q is not a unit of shift", unit)
}

// Amount is Turn the other way: how much of a unit an angle of the member makes.
// A chord spans no more than half a turn; of a greater angle it is not a number.
func Amount(angle geometry.Angle, unit Unit, pitches int, radius geometry.Length) float64 {
	switch unit {
	case Teeth:
		return float64(angle/geometry.Turn) * float64(pitches)
	case Arc:
		return angle.Radians() * radius.Millimetres()
	case Chord:
		if math.Abs(float64(angle)) > float64(geometry.Turn/2) {
			return math.NaN()
		}
		return 2 * radius.Millimetres() * math.Sin(angle.Radians()/2)
	}
	return angle.Degrees()
}

// assumedKnownTo is the half-width of a shift that nobody said one for: a scope
// cursor, or a rule along a rim (common practice, no source).
const assumedKnownTo = 0.5 * geometry.Degree

// crankAngle is a mark's shift as crank degrees, and its half-width; assumed
// when none was stated.
func (t *Tree) crankAngle(m Mark) (off, half geometry.Angle, assumed bool, err error) {
	s := m.Off
	if off, err = Turn(s.Value, s.Unit, s.Pitches, s.Radius); err != nil {
		return 0, 0, false, err
	}
	farther, err := Turn(s.Value+math.Copysign(s.KnownTo, s.Value), s.Unit, s.Pitches, s.Radius)
	if err != nil {
		return 0, 0, false, err
	}
	half = geometry.Angle(math.Abs(float64(farther - off)))
	if t.onCam(m) {
		off, half = 2*off, 2*half
	}
	if half == 0 {
		return off, assumedKnownTo, true, nil
	}
	return off, half, false, nil
}

// onCam tells whether a mark's shift is an angle of a member that turns at cam
// speed. Teeth are of the wheel that carries the mark, unless their number is
// that of the crank's sprocket, or of the crank wheel it is measured against: a
// cam's sprocket has twice as many.
func (t *Tree) onCam(m Mark) bool {
	switch m.Off.Unit {
	case CrankDegrees:
		return false
	case CamDegrees:
		return true
	case Teeth:
		if m.Off.Pitches == t.Drive.CrankSprocket || (m.Against == CrankWheel && m.Off.Pitches == t.Drive.CrankPitches) {
			return false
		}
	}
	return t.AtCamSpeed(m.On)
}
