package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
)

// After is how far after TDC the crank stands when the protractor shows what was
// read, repeats of one position averaged, and how sure that is. The protractor's
// own error at the position is the same in every repeat; the rounding is not,
// nor is what the repeats scatter.
func (a *Adjustment) After(read []geometry.Angle) (geometry.Angle, gum.Spread) {
	_, component := gum.Repeated(read, a.setup.Protractor.Step)
	u, in := a.position(read)
	s := a.spread(a.parts(in))
	s.Normal = append(s.Normal, component)
	s.Rectangular = append(s.Rectangular, float64(a.setup.Protractor.Error)/math.Sqrt(3))
	return geometry.Angle(u), s
}

// Shared is what the sources that TDC rests on leave a position, each its
// standard uncertainty in radians with its sign: the positions of two marks have
// the sum of their products as covariance. The protractor's own error is not in
// it, for it differs from place to place.
func (a *Adjustment) Shared(read []geometry.Angle) []float64 {
	_, in := a.position(read)
	var shared []float64
	for i := range in.angle {
		shared = append(shared, a.widening.factor*in.angle[i]*a.sigmaX[i], a.widening.factor*in.depth[i]*a.sigmaY[i])
	}
	for j, prior := range a.priors {
		if in.truth[j] != 0 && !math.IsInf(prior.Sigma, 1) {
			shared = append(shared, in.truth[j]*prior.Sigma)
		} else {
			shared = append(shared, 0)
		}
	}
	return shared
}

// position is how far after TDC the crank stands, and what that rests on.
func (a *Adjustment) position(read []geometry.Angle) (u float64, in influence) {
	mean, _ := gum.Repeated(read, a.setup.Protractor.Step)
	v := float64((mean - geometry.Angle(a.centre)).Signed()) - a.best.Beta[parTDC]
	u, sin, cos := onWheel(v, a.best.Beta[parWheelP], a.best.Beta[parWheelQ])
	in = newInfluence(len(a.depth)).add(-1, a.influence(parTDC))
	return u, in.add(1-cos, a.influence(parWheelP)).add(-sin, a.influence(parWheelQ))
}
