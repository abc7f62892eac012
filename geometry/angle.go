package geometry

import "math"

// Angle is a plane angle in radians; write 30 * geometry.Degree.
type Angle float64

// Units of angle.
const (
	Degree Angle = math.Pi / 180
	// Turn is one revolution, 360 degrees.
	Turn Angle = 2 * math.Pi
)

// Degrees is a in degrees.
func (a Angle) Degrees() float64 { return float64(a) * (180 / math.Pi) }

// Radians is a in radians.
func (a Angle) Radians() float64 { return float64(a) }

// Signed is a less whole turns, in (-180, 180] degrees.
func (a Angle) Signed() Angle {
	r := Angle(math.Remainder(float64(a), float64(Turn)))
	if r <= -Turn/2 {
		return r + Turn
	}
	return r
}

// Positive is a less whole turns, in [0, 360) degrees.
func (a Angle) Positive() Angle {
	r := Angle(math.Mod(float64(a), float64(Turn)))
	if r < 0 {
		r += Turn
	}
	if r >= Turn { // a tiny negative angle rounds up to a whole turn
		return 0
	}
	return r
}

// String writes a in degrees, with its unit: "12.5 deg".
func (a Angle) String() string {
	return Decimal(a.Degrees(), 9) + " deg"
}

// MarshalJSON writes a in degrees, without what the way through radians added; null
// where it is no number. It never errs.
func (a Angle) MarshalJSON() ([]byte, error) {
	if degrees := a.Degrees(); math.IsNaN(degrees) || math.IsInf(degrees, 0) {
		return []byte("null"), nil
	}
	return []byte(Decimal(a.Degrees(), 9)), nil
}

// CircularMean is the direction half-way between a and b, on the shorter way
// round, in (-180, 180] degrees. Two angles have two midpoints, half a turn
// apart; this is the one between them. Of two opposite angles, the last digits of
// their difference apart, it is the one after a.
func CircularMean(a, b Angle) Angle {
	apart := (b - a).Signed()
	const digits Angle = 1e-12 // of a few turns; no instrument shows as little
	if apart < digits-Turn/2 {
		apart += Turn
	}
	return (a + apart/2).Signed()
}
