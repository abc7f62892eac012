// Package look searches all round the crank: where an adjustment of readings is to
// start, whether it is BDC that was read, and whether another place fits them alike.
package look

import (
	"math"

	"evendrop/geometry"
)

// step is how far apart places are tried round the crank; finest how close to the
// best ones, well inside the reach of an adjustment.
const (
	step   = 2 * math.Pi / 180
	finest = step / 8
)

// round tries TDC all round the crank from half a turn before a place, then closer and
// closer about the best ones so far.
func round(middle float64, try func(tdc float64), best func() []Rough) {
	for away := -math.Pi; away < math.Pi; away += step {
		try(middle + away)
	}
	for by := step / 2; by >= finest; by /= 2 {
		for _, place := range best() {
			if !math.IsInf(place.Misfit, 1) {
				try(place.TDC - by)
				try(place.TDC + by)
			}
		}
	}
}

// drops fills in each reading's drop with TDC at a place. What it returns is positive
// where the readings lie nearer to it than to BDC.
func drops(drop []float64, crank geometry.SliderCrank, angle []float64, tdc float64) (near float64) {
	for i, a := range angle {
		drop[i] = float64(crank.Drop(geometry.Angle(a - tdc)))
		near += math.Cos(a - tdc)
	}
	return near
}

// thinned is every so-many-th of the values, about two hundred at most: enough
// for a rough look at any number of readings.
func thinned(values []float64) []float64 {
	const most = 200
	if len(values) <= most {
		return values
	}
	stride := (len(values) + most - 1) / most
	var thin []float64
	for i := 0; i < len(values); i += stride {
		thin = append(thin, values[i])
	}
	return thin
}
