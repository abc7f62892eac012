package geometry

import (
	"fmt"
	"math"
)

// SliderCrank is a crank, a rod and a piston whose pin runs on a line that may
// miss the crank axis. Make one with NewSliderCrank; the zero value is of no use.
type SliderCrank struct {
	throw, rod, offset float64 // mm
	top                float64 // height of the piston pin at TDC, mm
	sinTop, cosTop     float64 // of the crank angle at TDC from throw-along-bore
}

// NewSliderCrank makes a slider-crank of throw stroke/2, rod length between
// centres, and offset e: positive when the bore axis stands to the side that
// the crank pin moves to after TDC, or the piston pin to the other side (the
// major thrust side). So e is the bore offset less the pin offset.
//
// Geometry that cannot turn a whole revolution, the rod no longer than the
// throw and the offset together, is an error (Soylemez 7.2).
func NewSliderCrank(stroke, rod, offset Length) (SliderCrank, error) {
	r, l, e := float64(stroke)/2, float64(rod), float64(offset)
	switch {
	case !positive(r):
		return SliderCrank{}, fmt.Errorf("stroke %v is not a length above zero", stroke)
	case !positive(l):
		return SliderCrank{}, fmt.Errorf("rod %v is not a length above zero", rod)
	case math.IsNaN(e) || math.IsInf(e, 0):
		return SliderCrank{}, fmt.Errorf("offset %v is not a length", offset)
	case l <= r:
		return SliderCrank{}, fmt.Errorf("rod %v is too short: it must be longer than half the stroke, %v", rod, stroke/2)
	case math.Abs(e) >= l-r:
		return SliderCrank{}, fmt.Errorf("offset %v is too big: with rod %v and stroke %v it must stay under %v",
			offset, rod, stroke, Length(l-r))
	}
	return newSliderCrank(r, l, e), nil
}

func newSliderCrank(r, l, e float64) SliderCrank {
	top := math.Sqrt((l+r)*(l+r) - e*e)
	return SliderCrank{throw: r, rod: l, offset: e, top: top, sinTop: e / (l + r), cosTop: top / (l + r)}
}

func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

// WithOffset is s with another offset. Beyond the largest that can turn, it is
// held just inside: a fit that tries an impossible offset is turned back.
func (s SliderCrank) WithOffset(offset Length) SliderCrank {
	most := 0.999 * (s.rod - s.throw)
	return newSliderCrank(s.throw, s.rod, math.Max(-most, math.Min(most, float64(offset))))
}

// Throw is half the nominal stroke: the crank pin's distance from the crank axis.
func (s SliderCrank) Throw() Length { return Length(s.throw) }

// Rod is the rod's length between centres.
func (s SliderCrank) Rod() Length { return Length(s.rod) }

// Offset is e, signed as NewSliderCrank says.
func (s SliderCrank) Offset() Length { return Length(s.offset) }

// Top is the height of the piston pin above the crank axis at TDC.
func (s SliderCrank) Top() Length { return Length(s.top) }

// TDC is the crank angle from throw-along-bore at which the piston is highest,
// asin(e / (l + r)).
func (s SliderCrank) TDC() Angle { return Angle(math.Asin(s.offset / (s.rod + s.throw))) }

// BDC is the crank angle from throw-along-bore at which the piston is lowest,
// 180 deg + asin(e / (l - r)).
func (s SliderCrank) BDC() Angle {
	return Turn/2 + Angle(math.Asin(s.offset/(s.rod-s.throw)))
}

// Stroke is the piston's whole travel; an offset makes it longer than two throws.
func (s SliderCrank) Stroke() Length {
	short := s.rod - s.throw
	return Length(s.top - math.Sqrt(short*short-s.offset*s.offset))
}

// upright is the rod's rise along the bore when it leans by lean across it, mm.
func (s SliderCrank) upright(lean float64) float64 { return math.Sqrt(s.rod*s.rod - lean*lean) }

// Drop is how far the piston is below its highest point at u from TDC (KMODDL).
func (s SliderCrank) Drop(u Angle) Length {
	drop, _, _ := s.Motion(u)
	return drop
}

// Slope is the change of drop with crank angle at u from TDC.
func (s SliderCrank) Slope(u Angle) Slope {
	_, slope, _ := s.Motion(u)
	return slope
}

// Motion is the drop at u from TDC, its slope, and its derivative by the offset
// (millimetres per millimetre), in one go for the fit.
func (s SliderCrank) Motion(u Angle) (drop Length, slope Slope, byOffset float64) {
	sin, cos := s.crank(u)
	across, along := s.throw*sin, s.throw*cos
	lean := across - s.offset
	upright := s.upright(lean)
	slope = Slope(across + lean*along/upright)
	byOffset = (float64(slope)-s.offset)/s.top - lean/upright
	return Length(s.top - along - upright), slope, byOffset
}

// crank is the sine and cosine of the crank's angle from throw-along-bore, at
// u from TDC.
func (s SliderCrank) crank(u Angle) (sin, cos float64) {
	sin, cos = math.Sincos(float64(u))
	return sin*s.cosTop + cos*s.sinTop, cos*s.cosTop - sin*s.sinTop
}
