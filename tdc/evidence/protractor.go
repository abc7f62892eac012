package evidence

import (
	"fmt"
	"math"

	"evendrop/geometry"
)

// Sense is the way a protractor's numbers grow.
type Sense int

// The two senses.
const (
	With    Sense = iota // numbers grow in the running direction
	Against              // numbers grow against it
)

// Scale is how a protractor's numbers come round.
type Scale int

// The scales in use on degree wheels.
const (
	Cycle     Scale = 720 // 0 to 720, both turns of a cycle
	Full      Scale = 360 // 0 to 360
	Halves    Scale = 180 // -180 to 180, or 0 to 180 and back with BTDC or ATDC
	Quadrants Scale = 90  // 0 to 90 and back, each angle with BTDC or ATDC
)

// spans is the numbers that each scale has. One of 0 to 360 is often read with a minus
// sign just before its zero (common practice, no source).
var spans = map[Scale]struct {
	least, most float64
	words       string
}{
	Cycle:     {-360, 720, "0 to 720, or -360 to 360"},
	Full:      {-180, 360, "0 to 360, or -180 to 180 (wraps 720 is for one that counts both turns of a cycle)"},
	Halves:    {-180, 180, "-180 to 180, or 0 to 180 and back with BTDC or ATDC"},
	Quadrants: {-90, 90, "0 to 90 and back, with BTDC or ATDC"},
}

// Known tells whether there is such a scale.
func (s Scale) Known() bool { return spans[s].most > 0 }

// Side is the side of the protractor's zero, or of half a turn from it, that an angle was
// written with.
type Side int

// The sides; most angles are written without one.
const (
	NoSide Side = iota
	BTDC        // before: earlier in the running direction
	ATDC        // after
	BBDC        // before half a turn: before bottom dead centre
	ABDC        // after it
)

// Crank is a size on the side as an angle after the zero, within a turn either way.
func (s Side) Crank(size geometry.Angle) geometry.Angle {
	switch s {
	case BTDC:
		return -size
	case BBDC:
		return geometry.Turn/2 - size
	case ABDC:
		return geometry.Turn/2 + size
	}
	return size
}

// Written is an angle as somebody wrote it down.
type Written struct {
	Angle geometry.Angle
	Side  Side
}

// Protractor is the degree wheel, protractor or inclinometer on the crank.
type Protractor struct {
	Number    string // that it goes by in its workshop; "" of one that nobody said
	Sense     Sense
	Scale     Scale
	Step      geometry.Angle  // smallest difference read
	Error     geometry.Angle  // bound on its own error at a position
	OffCentre geometry.Length // bound on the distance of its centre from the crank's
	Radius    geometry.Length // at which it is read
	Sides     bool            // a scale of halves is read with BTDC and ATDC, as one of quadrants always is
}

// A degree wheel of nobody's statement (common practice, no source).
const (
	defaultProtractorStep  = 0.5 * geometry.Degree
	defaultProtractorError = 0.25 * geometry.Degree
	defaultWheelOffCentre  = 0.5 * geometry.Millimetre
	defaultWheelRadius     = 100 * geometry.Millimetre
)

// DefaultProtractor is a degree wheel read to half a degree.
func DefaultProtractor() Protractor {
	return Protractor{
		Scale: Full, Step: defaultProtractorStep, Error: defaultProtractorError,
		OffCentre: defaultWheelOffCentre, Radius: defaultWheelRadius,
	}
}

// Uncertainty is the standard uncertainty of one angle reading: a rectangular
// error bound and a rectangular rounding (JCGM 100 4.3.7, F.2.2.1).
func (p Protractor) Uncertainty() geometry.Angle {
	return geometry.Angle(math.Hypot(float64(p.Error)/math.Sqrt(3), float64(p.Step)/math.Sqrt(12)))
}

// OffCentreBound is the largest error, in radians, that the wheel off its
// centre makes.
func (p Protractor) OffCentreBound() float64 {
	if p.Radius <= 0 {
		return 0
	}
	return float64(p.OffCentre / p.Radius)
}

// Crank is the crank angle of a reading, in the running direction from the
// protractor's zero. A reading that the scale cannot show is an error that says
// how to write it.
func (p Protractor) Crank(w Written) (geometry.Angle, error) {
	degrees := w.Angle.Degrees()
	span := spans[p.Scale]
	const asTyped = 1e-9 // degrees that the way through radians may add
	switch {
	case !(degrees >= span.least-asTyped && degrees <= span.most+asTyped):
		return 0, fmt.Errorf("%s is not on a protractor that wraps at %d: expected %s", number(degrees), p.Scale, span.words)
	case p.Scale == Quadrants && w.Side == NoSide && degrees != 0:
		return 0, fmt.Errorf("%s may lie before or after zero on a protractor in quadrants: write %[2]s BTDC or %[2]s ATDC, or near BDC %[2]s BBDC or %[2]s ABDC",
			number(degrees), number(math.Abs(degrees)))
	case w.Side != NoSide && degrees < 0:
		return 0, fmt.Errorf("%s has both a minus sign and a side such as BTDC: write one of them", number(degrees))
	case p.Scale == Full && degrees >= span.most: // its two ends are one place
		return w.Side.Crank(0), nil
	case w.Side != NoSide:
		return w.Side.Crank(w.Angle), nil
	case p.Sense == Against:
		return -w.Angle, nil
	}
	return w.Angle, nil
}

// BySide tells whether the scale's numbers are shown with BTDC or ATDC.
func (p Protractor) BySide() bool { return p.Scale == Quadrants || p.Scale == Halves && p.Sides }

// WrittenAs is the protractor read with sides where some reading was written so.
func (p Protractor) WrittenAs(read []Reading) Protractor {
	for _, r := range read {
		p.Sides = p.Sides || r.Side != NoSide
	}
	return p
}

// Shows is what the protractor reads, as a number in its own convention, with
// the crank at an angle from its zero. Of numbers that are shown by their side those
// after the zero are positive.
func (p Protractor) Shows(crank geometry.Angle) geometry.Angle {
	crank = p.Grows(crank)
	if p.Scale >= Full {
		return crank.Positive()
	}
	return crank.Signed()
}

// Grows is by how much the number shown grows, but for the end of the scale, as the
// crank turns by an angle.
func (p Protractor) Grows(by geometry.Angle) geometry.Angle {
	if p.Sense == Against && !p.BySide() {
		return -by
	}
	return by
}

// LowFirst is the ends of an interval, the one first at which the lower number is shown,
// but for the end of the scale.
func (p Protractor) LowFirst(ends [2]geometry.Angle) [2]geometry.Angle {
	if p.Grows(ends[1]-ends[0]) < 0 {
		ends[0], ends[1] = ends[1], ends[0]
	}
	return ends
}

// ShortNumber writes degrees to the ten-thousandth.
func ShortNumber(degrees float64) string { return number(math.Round(degrees*1e4) / 1e4) }

// number writes degrees as they were typed: nine digits drop what the way through
// radians added.
func number(degrees float64) string { return geometry.Decimal(degrees, 9) }

// String is the sense as the job file writes it.
func (s Sense) String() string {
	if s == Against {
		return "against"
	}
	return "with"
}

// Still is how near two angles of a protractor may lie and be one place: each may be
// rounded a step the other way.
func (p Protractor) Still() geometry.Angle { return 2 * p.Step }
