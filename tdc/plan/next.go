package plan

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// Next is the next reading to take.
type Next struct {
	adjust.Place
	Drop        geometry.Length
	Uncertainty geometry.Angle // TDC's, standard, with it
}

// good is how much of the best reading's gain is as good: a hand on the ratchet
// would rather take what lies ahead.
const good = 0.8

// After is the next reading to take after those of a result, the last one of them
// being where the crank stands: of the places that buy about as much as the best
// does, the one that it comes to first, turned on the same way; then one that it
// comes to turned the other way; then one that is a turn away. False when the
// gauge reaches no place that is left.
func After(result tdc.Result, setup evidence.Setup, ground Ground) (Next, bool) {
	pairs, err := ground.pairs(setup)
	if err != nil || len(result.Readings) == 0 {
		return Next{}, false
	}
	var free []Next
	var places []adjust.Place
	for _, pair := range pairs {
		for _, p := range pair.places {
			if pair.drop >= hanging(setup.Gauge) && !read(result, p) {
				free, places = append(free, Next{Place: p, Drop: pair.drop}), append(places, p)
			}
		}
	}
	if i, ok := otherFlank(result, places); ok {
		free[i].Uncertainty = result.Outlook(places).WithOne(i)
		return free[i], true
	}
	outlook := result.Outlook(places)
	now := float64(outlook.Uncertainty())
	most := 0.0
	gain := make([]float64, len(free))
	for i := range free {
		free[i].Uncertainty = outlook.WithOne(i)
		u := float64(free[i].Uncertainty)
		gain[i] = now*now - u*u
		most = math.Max(most, gain[i])
	}
	best, nearest := -1, math.Inf(1)
	last := result.Readings[len(result.Readings)-1]
	for i, n := range free {
		if away := turning(last.Reading, result.TDC.Angle, n.Place); gain[i] >= good*most && away < nearest {
			best, nearest = i, away
		}
	}
	if best < 0 || most == 0 {
		return Next{}, false
	}
	return free[best], true
}

// otherFlank is the place across from the last reading, when the readings lie on one
// flank alone: TDC is known too badly then for the adjustment to say where another
// would tell most.
func otherFlank(result tdc.Result, places []adjust.Place) (at int, alone bool) {
	var count [2]int
	for _, j := range result.Readings {
		switch u := (j.Angle - result.TDC.Angle).Signed(); {
		case u > shallowest:
			count[1]++
		case u < -shallowest:
			count[0]++
		}
	}
	if count[0] > 0 && count[1] > 0 {
		return 0, false
	}
	last := result.Readings[len(result.Readings)-1]
	across := -(last.Angle - result.TDC.Angle).Signed()
	if most := 10 * geometry.Degree; math.Abs(float64(across)) < float64(most) { // so near TDC it would say little
		across = geometry.Angle(math.Copysign(float64(most), float64(across)))
	}
	at, least := -1, geometry.Angle(math.Inf(1))
	for i, p := range places {
		off := geometry.Angle(math.Abs(float64(p.Angle - across)))
		if p.Turn == last.Turn && p.Angle*across > 0 && off < least {
			at, least = i, off
		}
	}
	return at, at >= 0
}

// hanging is the drop within which the piston may hang in its lash, twice over: a
// single reading asked for there tells of lash more than of TDC.
func hanging(g evidence.Gauge) geometry.Length { return 2 * (g.Lash + g.LashKnownTo) }

// read tells whether the place was read already: the protractor's own error there
// would be the same.
func read(result tdc.Result, p adjust.Place) bool {
	for i, j := range result.Readings {
		off := (result.Since(i) - result.TDC.Angle - p.Angle).Signed()
		if j.Turn == p.Turn && !j.Suspect && math.Abs(float64(off)) < float64(apart)*0.6 {
			return true
		}
	}
	return false
}

// turning is how far a place is from a reading, in crank turns as a hand counts
// them: turned on the same way, or the other way, or past it and round again.
func turning(from evidence.Reading, top geometry.Angle, to adjust.Place) float64 {
	ahead := float64((to.Angle-(from.Angle-top).Signed())*geometry.Angle(to.Turn)) / (2 * math.Pi)
	switch {
	case to.Turn == from.Turn && ahead > 0:
		return ahead
	case to.Turn != from.Turn && ahead > 0:
		return 1 + ahead
	case to.Turn != from.Turn:
		return 2 - ahead // on past it first, to come back to it
	}
	return 3 + ahead
}
