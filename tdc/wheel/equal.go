package wheel

import (
	"math"

	"evendrop/geometry"
)

// PartTeeth is how many teeth after which the wheel looks the same again: all of
// them, but where the turn has equal parts, which the wheel alone does not tell
// apart.
func (w Wheel) PartTeeth() int {
	n := len(w.Intervals)
	for shift := 1; shift < n; shift++ {
		same := true
		for i := range w.Intervals {
			if math.Abs(float64(w.Intervals[i]/w.Intervals[(i+shift)%n]-1)) > leastContrast-1 {
				same = false
				break
			}
		}
		if same {
			return shift
		}
	}
	return n
}

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
	for _, a := range w.Intervals[:n-1] {
		if math.Abs(float64(a-w.Intervals[0])) > float64(sumKnownTo) {
			return false
		}
	}
	return n >= enough
}
