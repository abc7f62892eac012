package tdc

import (
	"math"

	"evendrop/geometry"
)

// After is how far after TDC the crank stands when the protractor shows what was
// read, repeats of one position averaged, and how sure that is. The protractor's
// own error at the position is the same in every repeat; the rounding is not,
// nor is what the repeats scatter.
func (r Result) After(read []geometry.Angle) (geometry.Angle, Spread) {
	a := r.fit
	mean, scatter := circular(read)
	v := float64((mean - geometry.Angle(a.centre)).Signed()) - a.best.Beta[parTDC]
	u, sin, cos := onWheel(v, a.best.Beta[parWheelP], a.best.Beta[parWheelQ])
	in := newInfluence(len(a.read)).add(-1, a.influence(parTDC))
	in = in.add(1-cos, a.influence(parWheelP)).add(-sin, a.influence(parWheelQ))
	s := a.spread(a.parts(in))
	n := math.Sqrt(float64(len(read)))
	rounding := float64(a.setup.Protractor.Step) / math.Sqrt(12)
	s.Normal = math.Hypot(s.Normal, math.Max(rounding, scatter)/n)
	s.Rectangular = append(s.Rectangular, float64(a.setup.Protractor.Error)/math.Sqrt(3))
	return geometry.Angle(u), s
}

// circular is the mean of angles about the first, and their standard deviation,
// nought for one alone.
func circular(read []geometry.Angle) (mean geometry.Angle, deviation float64) {
	n := float64(len(read))
	for _, angle := range read {
		mean += (angle - read[0]).Signed() / geometry.Angle(n)
	}
	for _, angle := range read {
		deviation += sq(float64((angle - read[0]).Signed() - mean))
	}
	if n > 1 {
		deviation = math.Sqrt(deviation / (n - 1))
	}
	return read[0] + mean, deviation
}

// ThrowToTDC is how far after throw-along-bore the piston's TDC comes, and the
// half-width that the doubt in the offset leaves it.
func (s Setup) ThrowToTDC() (angle, halfWidth geometry.Angle, err error) {
	crank, assumed, err := withAssumed(s.Engine)
	if err != nil {
		return 0, 0, err
	}
	half := float64(s.Engine.KnownTo.Offset) / float64(crank.Top())
	if assumed.Stroke > 0 { // an unknown size: any engine's
		half *= 2
	}
	return crank.TDC(), geometry.Angle(half), nil
}
