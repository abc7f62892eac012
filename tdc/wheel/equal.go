package wheel

import (
	"math"
	"slices"

	"evendrop/geometry"
)

// PartTeeth is how many teeth after which the wheel looks the same again: all of
// them, but where the turn has equal parts, which the wheel alone does not tell
// apart.
func (w Wheel) PartTeeth() int {
	n := len(w.Intervals)
	for shift := 1; shift < n; shift++ {
		if slices.EqualFunc(w.Intervals, slices.Concat(w.Intervals[shift:], w.Intervals[:shift]), same) {
			return shift
		}
	}
	return n
}

// same tells whether two intervals cannot be told apart.
func same(a, b geometry.Angle) bool { return math.Abs(float64(a/b-1)) <= leastContrast-1 }

// Parts is how many equal parts the turn has; 1 where the wheel alone tells the
// turn.
func (w Wheel) Parts() int { return len(w.Intervals) / w.PartTeeth() }

// Part is the angle of one of them.
func (w Wheel) Part() geometry.Angle { return geometry.Turn / geometry.Angle(w.Parts()) }

// OnePart is one of the wheel's equal parts spread over a turn.
func (w Wheel) OnePart() Wheel {
	part := Wheel{Name: w.Name}
	for _, a := range w.Intervals[:w.PartTeeth()] {
		part.Intervals = append(part.Intervals, a*geometry.Angle(w.Parts()))
	}
	return part
}

// Plain tells whether all intervals are alike but the gap, and enough of them to
// be told by.
func (w Wheel) Plain() bool {
	const enough = 10
	n := len(w.Intervals)
	return n >= enough && !slices.ContainsFunc(w.Intervals[:n-1], func(a geometry.Angle) bool {
		return math.Abs(float64(a-w.Intervals[0])) > float64(sumKnownTo)
	})
}
