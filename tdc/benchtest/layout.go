package benchtest

import (
	"math"

	"evendrop/tdc/evidence"
)

// Layout is where somebody means to read: each flank's share of the readings and
// its range of crank angle, as fractions of the whole reach.
type Layout struct {
	Name                  string
	Share                 float64 // of the readings before TDC, of a forward sweep
	BeforeFrom, BeforeTo  float64
	AfterFrom, AfterTo    float64
	ScatteredBy           float64 // degrees either way that the crank misses the meant angle
	Sweeps                int     // 1: one way; 2: both ways; more: forward and back again
	Readings              int
	ReachMost, DepthRange float64 // degrees, mm: whichever ends first
	Aim                   Aim
}

// Aim is how the crank is stopped at a meant angle.
type Aim int

// The ways of stopping.
const (
	About        Aim = iota // missed by ScatteredBy, whatever graduation comes up
	AtGraduation            // nearest the same graduation in every sweep, the pointer somewhere about it
	OnGraduation            // the graduation's line brought under the pointer, so that nothing is rounded
)

// Balanced is as much on either flank.
func Balanced(sweeps, readings int) Layout {
	return Layout{Name: "balanced", Share: 0.5, BeforeFrom: 1. / 6, BeforeTo: 1, AfterFrom: 1. / 6, AfterTo: 1,
		ScatteredBy: 1, Sweeps: sweeps, Readings: readings, ReachMost: 30}
}

// Lopsided is twice as many before TDC, and those deeper.
func Lopsided(sweeps, readings int) Layout {
	l := Balanced(sweeps, readings)
	l.Name, l.Share, l.BeforeFrom, l.AfterTo = "lopsided", 2./3, 1./3, 1./3
	return l
}

// Aimed is l with the crank stopped another way.
func (l Layout) Aimed(aim Aim) Layout {
	l.Aim = aim
	return l
}

// perSweep is how many readings a sweep has.
func (l Layout) perSweep() int { return l.Readings / l.Sweeps }

// turn is the way of the i-th sweep.
func (l Layout) turn(i int) evidence.TurnDirection {
	if i%2 == 1 {
		return evidence.Backward
	}
	return evidence.Forward
}

// before is how many readings of a sweep lie before TDC.
func (l Layout) before() int { return int(math.Round(float64(l.perSweep()) * l.Share)) }

// firstFlank is how many readings the i-th sweep has on the flank it begins with.
func (l Layout) firstFlank(i int) int {
	if l.turn(i) == evidence.Backward {
		return l.perSweep() - l.before()
	}
	return l.before()
}

// Meant is the places of a layout on an engine whose piston may go down no
// farther than the gauge reaches.
func (l Layout) Meant(b Bench) []Place {
	reach := l.ReachMost * Degree
	for l.DepthRange > 0 && b.Drop(reach) > l.DepthRange {
		reach -= Degree / 2
	}
	var places []Place
	before := l.before()
	after := l.perSweep() - before
	for s := range l.Sweeps {
		var sweep []Place
		for i := range before {
			sweep = append(sweep, Place{-reach * evenly(l.BeforeFrom, l.BeforeTo, i, before), l.turn(s)})
		}
		for i := range after {
			sweep = append(sweep, Place{reach * evenly(l.AfterFrom, l.AfterTo, i, after), l.turn(s)})
		}
		places = append(places, InOrder(sweep)...)
	}
	return places
}

// evenly is the i-th of n values evenly from a to b.
func evenly(a, b float64, i, n int) float64 {
	if n == 1 {
		return (a + b) / 2
	}
	return a + (b-a)*float64(i)/float64(n-1)
}
