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
	mean, deviation := circular(middles)
	n := float64(len(pairs))
	rounding := float64(p.Step) / math.Sqrt(12) / math.Sqrt2
	spread := Spread{
		Normal:    math.Hypot(rounding/math.Sqrt(n), float64(p.Error)/math.Sqrt(6)),
		Estimated: math.Inf(1),
	}
	if repeat := deviation / math.Sqrt(n); repeat > spread.Normal {
		spread.Normal, spread.Estimated = repeat, n-1
	}
	return spread.Estimate(mean.Signed()), middles, nil
}
