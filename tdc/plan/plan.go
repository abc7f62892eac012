package plan

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// Most is as many readings as anybody takes, Usual how many when nobody says.
const (
	Most  = 40
	Usual = 12
)

// Plan is where to read.
type Plan struct {
	Points   []Point         // in the order that the crank comes to them, forward first
	Foreseen adjust.Foreseen // of readings at the points
	Even     adjust.Foreseen // of as many readings spread evenly over the same flanks
}

// Point is a place to read and what it is like there.
type Point struct {
	adjust.Place
	Drop      geometry.Length
	HalfAngle geometry.Angle // between the places of this drop on the two flanks
	Slope     geometry.Slope // of the piston
	// Uncertainty is the standard uncertainty of an angle on the flank here, by
	// one reading with the instruments alone.
	Uncertainty geometry.Angle
}

// Fewest is how many readings a plan has at least: a pair of equal drop well down
// the flanks and one nearer to TDC, each way, and enough to show a bad reading.
func (g Ground) Fewest() int {
	if g.OneWay {
		return 6
	}
	return 8
}

// Best is the plan of n readings, in pairs of equal drop, that leaves TDC least
// uncertain. An error is of a number that makes no pairs, of a protractor or a ground without
// places for so many (NoRoom, TooShallow), or of an engine that cannot turn.
func Best(setup evidence.Setup, ground Ground, n int) (Plan, error) {
	if n < ground.Fewest() || n%2 != 0 {
		return Plan{}, notInPairs{n, ground.Fewest()}
	}
	pairs, err := ground.pairs(setup)
	if err != nil {
		return Plan{}, err
	}
	if n > 2*room(pairs) {
		return Plan{}, NoRoom{n, ground.Deepest, 2 * room(pairs)}
	}
	return best(setup, ground, pairs, n)
}

// Reach is the plan of the fewest readings whose standard uncertainty is within
// the target, turning one way where turning back saves none of them or gains little, at
// round drops. When none is, it is the surest plan that anybody would take, and false.
// Errors are Best's.
func Reach(setup evidence.Setup, ground Ground, target geometry.Angle) (Plan, bool, error) {
	p, reached, err := reach(setup, ground, target)
	if err != nil {
		return p, false, err
	}
	most := geometry.Angle(math.Inf(1))
	if reached {
		most = target
	}
	p, err = rounded(setup, ground, p, most)
	return p, reached, err
}

// reach is Reach at any drops.
func reach(setup evidence.Setup, ground Ground, target geometry.Angle) (Plan, bool, error) {
	oneWay, reached, err := reachIn(setup, ground.turned(true), target)
	if err != nil || ground.OneWay {
		return oneWay, reached, err
	}
	bothWays, reachedToo, err := reachIn(setup, ground, target)
	switch {
	case err != nil:
		return bothWays, false, err
	case reached && (!reachedToo || len(oneWay.Points) <= len(bothWays.Points)):
		return oneWay, true, nil
	case !reachedToo:
		if !gains(bothWays, oneWay) {
			return oneWay, false, nil
		}
		return bothWays, false, nil
	case !reached:
		return bothWays, true, nil
	}
	// Both reach it, both ways with fewer readings: few enough to turn back for?
	if as, err := Best(setup, ground.turned(true), len(bothWays.Points)); err == nil && !gains(bothWays, as) {
		return oneWay, true, nil
	}
	return bothWays, true, nil
}

// reachIn is Reach on one ground alone, by halving: one more pair never hurts.
func reachIn(setup evidence.Setup, ground Ground, target geometry.Angle) (Plan, bool, error) {
	pairs, err := ground.pairs(setup)
	if err != nil {
		return Plan{}, false, err
	}
	low, high := ground.Fewest()/2, min(Most/2, room(pairs))
	found, err := best(setup, ground, pairs, 2*high)
	if err != nil || found.Foreseen.AgreeTo.Uncertainty > target {
		return found, false, err
	}
	for low < high {
		middle := (low + high) / 2
		p, err := best(setup, ground, pairs, 2*middle)
		if err != nil {
			return p, false, err
		}
		if p.Foreseen.AgreeTo.Uncertainty <= target {
			found, high = p, middle
		} else {
			low = middle + 1
		}
	}
	return found, true, nil
}

// newPlan is pairs as a plan, beside as many readings evenly spread.
func newPlan(setup evidence.Setup, pairs []pair, even []adjust.Place) (Plan, error) {
	crank, err := setup.Kinematics()
	if err != nil {
		return Plan{}, err
	}
	var p Plan
	for _, pair := range pairs {
		for _, place := range pair.places {
			slope := crank.Slope(pair.half)
			perAngle := setup.Gauge.Uncertainty().Millimetres() / float64(slope)
			p.Points = append(p.Points, Point{
				Place: place, Drop: pair.drop, HalfAngle: pair.half, Slope: slope,
				Uncertainty: geometry.Angle(math.Hypot(perAngle, float64(setup.Protractor.Uncertainty()))),
			})
		}
	}
	slices.SortFunc(p.Points, func(a, b Point) int {
		if a.Turn != b.Turn {
			return cmp.Compare(b.Turn, a.Turn)
		}
		return cmp.Compare(a.Angle*geometry.Angle(a.Turn), b.Angle*geometry.Angle(b.Turn))
	})
	if p.Foreseen, err = adjust.Foresee(setup, p.places()); err != nil {
		return p, err
	}
	p.Even, err = adjust.Foresee(setup, even)
	return p, err
}

// places are the plan's places alone.
func (p Plan) places() []adjust.Place {
	var places []adjust.Place
	for _, point := range p.Points {
		places = append(places, point.Place)
	}
	return places
}

// TurnsBack tells whether the crank is turned back for any of the readings.
func (p Plan) TurnsBack() bool {
	return slices.ContainsFunc(p.Points, func(point Point) bool { return point.Turn == evidence.Backward })
}
