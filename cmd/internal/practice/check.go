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

// asRead is how near to each other two answers may be, degrees, and be the same:
// half a step of the protractor.
const asRead = 0.25

// Mark holds an angle against the answer. A wrong one that lies near to where a
// trap leads, and nearer than to the truth, is laid to that trap.
func (a Answer) Mark(given geometry.Angle) Marked {
	m := Marked{Answer: a, Given: shown(given), Off: apart(given.Degrees(), a.TDC)}
	if m.Within() {
		return m
	}
	nearest := math.Max(a.Limit, asRead)
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
