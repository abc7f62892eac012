package blunder

import (
	"math"
	"slices"
	"strconv"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Kind is what was done wrong with a reading.
type Kind string

// The kinds.
const (
	Point   Kind = "decimal point"
	Inches  Kind = "inches and millimetres changed over"
	Sign    Kind = "sign"
	Swapped Kind = "angle and depth changed over"
	Digits  Kind = "two digits changed over"
)

// Way is what a reading may have been meant as.
type Way struct {
	Kind    Kind
	Depth   bool // it is the depth that is another; else the angle, or both where they are changed over
	Reading evidence.Reading
}

// seldom tells whether a way is one that seldom happens beside the others: an angle that is
// ten times another is mostly off the scale.
func (w Way) seldom() bool { return w.Kind == Point && !w.Depth }

// factors are how many times too large a depth is written, the likeliest first.
var factors = []float64{10, 0.1, 25.4, 1 / 25.4, 100, 0.01, 1000, 0.001}

// otherUnit is the factor of a depth written in the unit that is not the job's.
func (b *Bench) otherUnit() float64 {
	if b.unit == geometry.Inch {
		return 25.4
	}
	return 1 / 25.4
}

// Ways is what a reading among others may have been meant as, the likeliest first.
func (b *Bench) Ways(r evidence.Reading, all []evidence.Reading) (ways []Way) {
	for _, by := range factors {
		kind := Point
		if by == b.otherUnit() {
			kind = Inches
		}
		ways = append(ways, Way{kind, true, withDepth(r, r.Depth/geometry.Length(by))})
	}
	if b.HasSign(r, all) {
		ways = append(ways, Way{Sign, false, withAngle(r, -r.Angle)})
	}
	for _, by := range []float64{10, 0.1} {
		if angle, ok := b.onScale(b.shows(r.Angle) / by); ok {
			ways = append(ways, Way{Point, false, withAngle(r, angle)})
		}
	}
	if angle, ok := b.onScale(float64(r.Depth / b.unit)); ok {
		swapped := withAngle(r, angle)
		swapped.Depth = geometry.Length(b.shows(r.Angle)) * b.unit
		ways = append(ways, Way{Swapped, false, swapped})
	}
	return ways
}

// Digits is what a reading may have been meant as where two digits beside one another were
// changed over, in its angle or its depth. So many are in order by chance that they say
// something beside a curve only. The number of a scale with sides is left alone.
func (b *Bench) Digits(r evidence.Reading) (ways []Way) {
	for _, number := range changedOver(b.shows(r.Angle)) {
		if angle, ok := b.onScale(number); ok {
			ways = append(ways, Way{Digits, false, withAngle(r, angle)})
		}
	}
	for _, number := range changedOver(float64(r.Depth / b.unit)) {
		ways = append(ways, Way{Digits, true, withDepth(r, geometry.Length(number)*b.unit)})
	}
	return ways
}

// changedOver is the numbers that two unlike digits of a number, beside one another or on
// either side of its point, make when they change places.
func changedOver(number float64) (list []float64) {
	const finest = 1e4 // a tenth of a thousandth of an inch
	text := []byte(strconv.FormatFloat(math.Round(number*finest)/finest, 'f', -1, 64))
	before := -1
	for i, c := range text {
		if c < '0' || c > '9' {
			continue
		}
		if before >= 0 && text[before] != c {
			other := slices.Clone(text)
			other[before], other[i] = c, text[before]
			n, _ := strconv.ParseFloat(string(other), 64) // digits, and at most one point
			list = append(list, n)
		}
		before = i
	}
	return list
}

func withDepth(r evidence.Reading, depth geometry.Length) evidence.Reading {
	r.Depth = depth
	return r
}

func withAngle(r evidence.Reading, angle geometry.Angle) evidence.Reading {
	r.Angle = angle
	return r
}

// shows is an angle in degrees as the protractor shows it.
func (b *Bench) shows(a geometry.Angle) float64 { return b.setup.Protractor.Shows(a).Degrees() }

// onScale is the angle at a number of the protractor; none on a scale whose numbers need a
// side.
func (b *Bench) onScale(degrees float64) (geometry.Angle, bool) {
	if b.setup.Protractor.BySide() {
		return 0, false
	}
	angle, err := b.setup.Protractor.Crank(evidence.Written{Angle: geometry.Angle(degrees) * geometry.Degree})
	return angle, err == nil
}

// HasSign tells whether a reading's angle, among others', is written with a sign or a side, or
// may have lost one.
func (b *Bench) HasSign(r evidence.Reading, all []evidence.Reading) bool {
	if math.Abs(r.Angle.Signed().Degrees()) < 1 {
		return false
	}
	if b.setup.Protractor.Scale != evidence.Full && b.setup.Protractor.Scale != evidence.Cycle {
		return true
	}
	for _, other := range all {
		if other.Side != evidence.NoSide || float64(other.Angle)*float64(senseOf(b.setup.Protractor)) < 0 {
			return true
		}
	}
	return false
}

// senseOf is +1 of a protractor that counts with the running direction, -1 of one that
// counts against it.
func senseOf(p evidence.Protractor) int {
	if p.Sense == evidence.Against {
		return -1
	}
	return 1
}
