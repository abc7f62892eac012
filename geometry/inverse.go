package geometry

import (
	"fmt"
	"math"
)

// AnglesAt is the pair of crank angles from TDC at which the piston is drop
// below its highest point: before (negative or zero) and after. It is exact:
// the law of cosines in the triangle of crank, rod and pin.
//
// A drop below zero or beyond the stroke has no angles and is an error.
func (s SliderCrank) AnglesAt(drop Length) (before, after Angle, err error) {
	if !(drop >= 0 && drop <= s.Stroke()) {
		return 0, 0, fmt.Errorf("drop %v is not between zero and the stroke, %v", drop, s.Stroke())
	}
	half := s.halfAngle(float64(drop))
	middle := s.EqualDropMidpoint(drop)
	return middle - half, middle + half, nil
}

// halfAngle is half the angle between the two crank positions at a drop. The
// law of cosines is taken by the versine, 1 - cos, with the difference of near
// equal lengths worked out by hand, so that no digits are lost near TDC.
func (s SliderCrank) halfAngle(drop float64) Angle {
	far := math.Hypot(s.top-drop, s.offset) // crank axis to piston pin
	short := drop * (2*s.top - drop) / (s.throw + s.rod + far)
	versine := short * (s.rod + far - s.throw) / (2 * s.throw * far)
	return Angle(2 * math.Asin(math.Sqrt(math.Min(1, versine/2))))
}

// EqualDropMidpoint is where half-way between the two angles at a drop lies,
// from TDC: atan(e / (top - drop)) - atan(e / top). It is zero without offset.
func (s SliderCrank) EqualDropMidpoint(drop Length) Angle {
	return Angle(math.Atan2(s.offset, s.top-float64(drop)) - math.Atan2(s.offset, s.top))
}

// Dwell is the pair of crank angles from TDC between which the piston stays
// within the given drop of its highest point. There is no dwell without a drop:
// within below zero or beyond the stroke is an error.
func (s SliderCrank) Dwell(within Length) (before, after Angle, err error) {
	return s.AnglesAt(within)
}
