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
	_, component := repeated(read, a.setup.Protractor.Step)
	u, in := r.position(read)
	s := a.spread(a.parts(in))
	s.Normal = append(s.Normal, component)
	s.Rectangular = append(s.Rectangular, float64(a.setup.Protractor.Error)/math.Sqrt(3))
	return geometry.Angle(u), s
}

// Shared is what the sources that TDC rests on leave a position, each its
// standard uncertainty in radians with its sign: the positions of two marks have
// the sum of their products as covariance. The protractor's own error is not in
// it, for it differs from place to place.
func (r Result) Shared(read []geometry.Angle) []float64 {
	a := r.fit
	_, in := r.position(read)
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
func (r Result) position(read []geometry.Angle) (u float64, in influence) {
	a := r.fit
	mean, _ := repeated(read, a.setup.Protractor.Step)
	v := float64((mean - geometry.Angle(a.centre)).Signed()) - a.best.Beta[parTDC]
	u, sin, cos := onWheel(v, a.best.Beta[parWheelP], a.best.Beta[parWheelQ])
	in = newInfluence(len(a.depth)).add(-1, a.influence(parTDC))
	return u, in.add(1-cos, a.influence(parWheelP)).add(-sin, a.influence(parWheelQ))
}

// repeated is the mean of repeats of one angle, averaged about the first, and what
// rounding and scatter leave of it. Repeats that lie within a step of one another
// are one angle rounded, by the same each time; others say by their scatter what
// they are worth.
func repeated(read []geometry.Angle, step geometry.Angle) (geometry.Angle, Component) {
	n := float64(len(read))
	var mean, least, most, square geometry.Angle
	for _, angle := range read {
		off := (angle - read[0]).Signed()
		least, most = min(least, off), max(most, off)
		mean += off / geometry.Angle(n)
	}
	for _, angle := range read {
		off := (angle - read[0]).Signed() - mean
		square += off * off
	}
	component := Component{float64(step) / math.Sqrt(12), math.Inf(1)}
	const rounding = 1e-9 // of the angles' own digits
	if most-least > step+rounding {
		component = Component{math.Sqrt(float64(square) / (n - 1) / n), n - 1}
	}
	return read[0] + mean, component
}
