package words

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Bench is how a job shows things: on its protractor, on its gauge, in its unit of
// length.
type Bench struct {
	Protractor evidence.Protractor
	Gauge      evidence.Gauge
	Inches     bool
}

// NewBench is how a job with this set-up and unit ("mm" or "in") shows things.
func NewBench(setup evidence.Setup, unit string) Bench {
	return Bench{setup.Protractor, setup.Gauge, unit == "in"}
}

// Reads is what the protractor shows with the crank at an angle from its zero, with
// its side where the scale needs one: "3.4", "12.0 BTDC".
func (b Bench) Reads(crank geometry.Angle, places int) string {
	shown := b.Protractor.Shows(crank).Degrees()
	if b.Protractor.BySide() {
		size, side := math.Abs(shown), [2]string{" ATDC", " BTDC"}
		if b.Protractor.Scale == evidence.Quadrants && size > 90 {
			size, side = 180-size, [2]string{" BBDC", " ABDC"}
		}
		if shown < 0 {
			return Fixed(size, places) + side[1]
		}
		return Fixed(size, places) + side[0]
	}
	if b.Protractor.Scale >= evidence.Full && 360-shown < math.Pow10(-places)/2 {
		shown = 0
	}
	return Fixed(shown, places)
}

// ReadsWithin is what it shows with the half-width of the interval: "3.36 ± 0.09 deg".
func (b Bench) ReadsWithin(e gum.Estimate) string {
	places := Decimals(e.Expanded.Degrees())
	return b.Reads(e.Angle, places) + " ± " + Fixed(e.Expanded.Degrees(), places) + " deg"
}

// WithinDegrees is the half-width of an interval, to the digits that it deserves.
func WithinDegrees(half geometry.Angle) string {
	return Fixed(half.Degrees(), Decimals(half.Degrees()))
}

// Unit is the job's unit of length, "mm" or "in".
func (b Bench) Unit() string {
	if b.Inches {
		return "in"
	}
	return "mm"
}

// In is a length in the job's unit.
func (b Bench) In(l geometry.Length) float64 {
	if b.Inches {
		return l.Inches()
	}
	return l.Millimetres()
}

// Length is a length with the digits that its half-width deserves, without the unit.
func (b Bench) Length(l, half geometry.Length) string { return Fixed(b.In(l), Decimals(b.In(half))) }

// LengthWithin is a length and its half-width: "5.85 ± 0.08 mm".
func (b Bench) LengthWithin(l, half geometry.Length) string {
	return Within(b.In(l), b.In(half)) + " " + b.Unit()
}

// Stated is a length that somebody stated: "81.4 mm". Inches are shown to a ten
// thousandth, since many of them were stated in millimetres.
func (b Bench) Stated(l geometry.Length) string { return b.Number(l) + " " + b.Unit() }

// Number is Stated without the unit, for a column that has it.
func (b Bench) Number(l geometry.Length) string {
	if b.Inches {
		return Trimmed(l.Inches(), 4)
	}
	return Plain(l.Millimetres())
}

// Depth is a length to what a gauge shows: two decimals of a millimetre, three of an
// inch.
func (b Bench) Depth(l geometry.Length) string {
	return Fixed(b.In(l), b.depthPlaces()) + " " + b.Unit()
}

// Read is a length as the gauge showed it: with one decimal more where its step has it.
func (b Bench) Read(l geometry.Length) string {
	places := b.depthPlaces()
	if step := b.In(b.Gauge.Step); step > 0 && step*math.Pow10(places) < 1-1e-9 {
		return Fixed(b.In(l), places+1) + " " + b.Unit()
	}
	return b.Depth(l)
}

// SignedDepth is Depth with its sign.
func (b Bench) SignedDepth(l geometry.Length) string {
	return Signed(b.In(l), b.depthPlaces()) + " " + b.Unit()
}

// Residual is what the curve leaves of a reading, with its sign: as a gauge shows it, but to a
// ten thousandth of an inch, since good readings lie within a thousandth.
func (b Bench) Residual(l geometry.Length) string {
	places := b.depthPlaces()
	if b.Inches {
		places++
	}
	return Signed(b.In(l), places) + " " + b.Unit()
}

// LiftNumber is how far up to read a lobe, without the unit.
func (b Bench) LiftNumber(l geometry.Length) string { return Fixed(b.In(l), b.depthPlaces()) }

func (b Bench) depthPlaces() int {
	if b.Inches {
		return 3
	}
	return 2
}

// Drop is how far down to read, to what a hand can set.
func (b Bench) Drop(l geometry.Length) string { return b.DropNumber(l) + " " + b.Unit() }

// DropNumber is Drop without the unit.
func (b Bench) DropNumber(l geometry.Length) string {
	switch {
	case b.Inches:
		return Fixed(l.Inches(), 3)
	case l < geometry.Millimetre:
		return Fixed(l.Millimetres(), 2)
	}
	return Fixed(l.Millimetres(), 1)
}

// Slope is how fast a length changes, in the job's unit a degree, without the unit.
func (b Bench) Slope(s geometry.Slope) string {
	return Fixed(b.PerDegree(s), b.depthPlaces()+1)
}

// PerDegree is a slope in the job's unit a degree.
func (b Bench) PerDegree(s geometry.Slope) float64 {
	return b.In(geometry.Length(s.MillimetresPerDegree()) * geometry.Millimetre)
}
