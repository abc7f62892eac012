package practice

import (
	"math"

	"evendrop/geometry"
)

// Marked is a learner's answer against the truth.
type Marked struct {
	Answer
	Given float64 // degrees, as the protractor shows them
	Off   float64 // degrees, late positive
	Near  *Trap   // the trap that the answer seems to have come from; nil: none
}

// Within tells whether the answer is right.
func (m Marked) Within() bool { return math.Abs(m.Off) <= m.Limit+1e-9 }

// Mark holds an angle against the answer. A wrong one that lies nearer to where a
// trap leads than to the truth, and as near as a right one to the truth, is laid to
// that trap.
func (a Answer) Mark(given geometry.Angle) Marked {
	m := Marked{Answer: a, Given: shown(given), Off: apart(given.Degrees(), a.TDC)}
	if m.Within() {
		return m
	}
	nearest := a.Limit
	for i, t := range a.Traps {
		if t.TDC == nil {
			continue
		}
		off := math.Abs(apart(given.Degrees(), *t.TDC))
		if off <= nearest && off < math.Abs(m.Off) {
			m.Near, nearest = &a.Traps[i], off
		}
	}
	return m
}

// apart is how far x is after y, degrees, within half a turn.
func apart(x, y float64) float64 {
	return (geometry.Angle(x-y) * geometry.Degree).Signed().Degrees()
}
