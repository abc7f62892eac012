package mark

import (
	"fmt"
	"math"
	"strings"

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
			return 0, fmt.Errorf("a chord of %g mm does not fit a circle of radius %v", amount, radius)
		}
		return geometry.Angle(2 * math.Asin(ratio/2)), nil
	}
	return 0, fmt.Errorf("%q is no unit of shift", unit)
}

// crankAngle is a shift as crank degrees, and its half-width.
func (s Shift) crankAngle(on string) (off, half geometry.Angle, err error) {
	if off, err = Turn(s.Value, s.Unit, s.Pitches, s.Radius); err != nil {
		return 0, 0, err
	}
	farther, err := Turn(s.Value+math.Copysign(s.KnownTo, s.Value), s.Unit, s.Pitches, s.Radius)
	if err != nil {
		return 0, 0, err
	}
	half = geometry.Angle(math.Abs(float64(farther - off)))
	if s.Unit == CamDegrees || (s.Unit != CrankDegrees && turnsWithCam(on)) {
		off, half = 2*off, 2*half
	}
	return off, half, nil
}

// turnsWithCam tells whether a member turns once for two turns of the crank.
func turnsWithCam(member string) bool {
	for _, word := range []string{"cam", "inlet", "exhaust"} {
		if strings.Contains(member, word) {
			return true
		}
	}
	return false
}
