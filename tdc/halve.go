package tdc

import (
	"errors"
	"math"

	"evendrop/geometry"
)

// Pair is two crank angles at the same drop, or at a stop, from the protractor's
// zero.
type Pair struct {
	First, Second geometry.Angle
}

// Halve is TDC as the mean midpoint of pairs of angles at equal drop or at a
// stop, with each pair's own midpoint. The midpoint on the shorter way round is
// taken. The uncertainty is the protractor's alone, or the scatter of the
// midpoints where that is greater: lash and the gauge are not in it. No pairs,
// or two angles half a turn apart, are an error.
func Halve(p Protractor, pairs []Pair) (Estimate, []geometry.Angle, error) {
	if len(pairs) == 0 {
		return Estimate{}, nil, errors.New("no pair of angles")
	}
	var middles []geometry.Angle
	for _, pair := range pairs {
		if apart := math.Abs((pair.Second - pair.First).Signed().Degrees()); apart > 179.999 {
			return Estimate{}, nil, errors.New("two angles half a turn apart have no nearer midpoint: take a smaller drop")
		}
		middles = append(middles, geometry.CircularMean(pair.First, pair.Second))
	}
	mean, component := repeated(middles, p.Step)
	if math.IsInf(component.Degrees, 1) {
		component.Standard /= math.Sqrt2 // two roundings to a midpoint
	}
	spread := Spread{Normal: []Component{component, {float64(p.Error) / math.Sqrt(6), math.Inf(1)}}}
	return spread.Estimate(mean.Signed()), middles, nil
}
