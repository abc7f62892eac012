package cams

import (
	"fmt"
	"math"
	"math/rand/v2"

	"evendrop/geometry"
	"evendrop/tdc/lobe"
)

// Wanted is what is to be practised on.
type Wanted struct {
	Valves []lobe.Valve     // a lobe of each; none: no lobes
	Late   *geometry.Angle  // how late its cam stands, crank; nil: the seed says
	Lost   *geometry.Length // lift that is missing; nil: the seed says
}

// The most that may be asked for: a cam is 45 deg out only by several teeth, and a lobe
// that has lost more lift than that shows so to the eye (common practice, no source).
const (
	mostLate = 45 * geometry.Degree
	mostLost = 0.5 * geometry.Millimetre
)

// Check is what is wrong with what is wanted, nil where nothing is: a late or worn cam
// without a lobe to show it, or by more than there is room for.
func (w Wanted) Check() error {
	switch {
	case len(w.Valves) == 0 && (w.Late != nil || w.Lost != nil):
		return fmt.Errorf("a cam that is late or has lost lift needs a lobe to show it")
	case w.Late != nil && !(math.Abs(float64(*w.Late)) <= float64(mostLate)):
		return fmt.Errorf("a cam late by %v: expected -45 to 45 deg", *w.Late)
	case w.Lost != nil && !(*w.Lost >= 0 && *w.Lost <= mostLost):
		return fmt.Errorf("lost lift of %v: expected 0 to %v", *w.Lost, mostLost)
	}
	return nil
}

// Fault is what befell a cam.
type Fault string

// The faults.
const (
	Nothing Fault = "nothing"
	Moved   Fault = "moved"
	Lift    Fault = "lift"
	Both    Fault = "both"
)

// faultOf is what a cam that is late and has lost lift shows.
func faultOf(late, lost float64) Fault {
	switch {
	case late != 0 && lost != 0:
		return Both
	case late != 0:
		return Moved
	case lost != 0:
		return Lift
	}
	return Nothing
}

// befallen is how late a cam is, degrees, and how much lift it lost, mm: what was asked
// for, or else one of three things, alike likely, and large enough to be told.
func (w Wanted) befallen(rng *rand.Rand) (late, lost float64) {
	way := 1.0
	if rng.IntN(2) == 0 {
		way = -1
	}
	by, less := rounded(way*(3+9*rng.Float64()), 0.1), rounded(0.15+0.15*rng.Float64(), 0.01)
	switch rng.IntN(3) {
	case 0:
		late = by
	case 1:
		lost = less
	}
	if w.Late != nil || w.Lost != nil {
		late, lost = 0, 0
	}
	if w.Late != nil {
		late = w.Late.Degrees()
	}
	if w.Lost != nil {
		lost = w.Lost.Millimetres()
	}
	return late, lost
}

// within is a number drawn evenly from -bound to bound.
func within(rng *rand.Rand, bound float64) float64 { return bound * (2*rng.Float64() - 1) }

// rounded is a number to a step.
func rounded(x, step float64) float64 { return math.Round(x/step) * step }
