package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
)

// Seen is where the crank stands when the protractor shows an angle, and how sure that
// is, by what would make it surer.
type Seen struct {
	Angle    geometry.Angle // after TDC
	Readings gum.Component  // further readings of the piston shrink it
	Own      gum.Component  // further readings of the position shrink it
	Scale    float64        // variance, radians squared, of the protractor's error between TDC and here; negative where the readings were taken at this line
	Stated   []float64      // standard uncertainties of stated ranges

	from    *Adjustment
	in      influence
	weights []float64 // of the lines that TDC was read at
	lines   []int     // that the position was read at
	apart   geometry.Angle
}

// After is how far after TDC the crank stands when the protractor shows what was
// read, repeats of one position averaged, and how sure that is. The protractor's
// own error at the position is the same in every repeat; the rounding is not,
// nor is what the repeats scatter.
func (a *Adjustment) After(read []geometry.Angle) Seen {
	mean, component := gum.Repeated(read, a.setup.Protractor.Step)
	u, in := a.position(mean)
	s := Seen{Angle: geometry.Angle(u), Own: component, from: a, in: in, weights: a.scale.weights(in, len(a.read)), apart: (mean - a.at()).Signed()}
	for _, angle := range read {
		if line, shared := a.scale.line(angle); shared {
			s.lines = append(s.lines, line)
		}
	}
	p := a.parts(in)
	s.Readings = gum.Component{Standard: a.widening.factor * math.Sqrt(p.read()), Degrees: a.widening.degrees}
	s.Scale = p.common + 2*a.scale.unlike(s.apart) + 2*a.scale.own*s.at(s.weights)
	s.Stated = a.onScale(a.spread(p)).Rectangular
	return s
}

// at is the weight of the lines at which the position was read.
func (s Seen) at(weights []float64) float64 {
	sum := 0.0
	for _, line := range s.lines {
		if i, known := s.from.scale.index[line]; known {
			sum += weights[i] / float64(len(s.lines))
		}
	}
	return sum
}

// Spread is all of it together.
func (s Seen) Spread() gum.Spread {
	readings, scale := s.Readings, gum.Component{Standard: math.Sqrt(math.Max(0, s.Scale)), Degrees: math.Inf(1)}
	if s.Scale < 0 {
		readings.Standard = math.Sqrt(math.Max(0, sq(readings.Standard)+s.Scale))
	}
	return gum.Spread{Normal: []gum.Component{readings, s.Own, scale}, Rectangular: s.Stated}
}

// OfTDC is the part of its uncertainty that the TDC it is measured from leaves every
// position, radians, standard.
func (s Seen) OfTDC() float64 {
	p := s.from.parts(s.in)
	return math.Sqrt(math.Max(0, sq(s.Readings.Standard)+p.common) + p.priors())
}

// Together is the covariance of two positions measured from the same TDC, radians
// squared: what its readings and the stated ranges leave both, and the protractor's
// error, which is one curve through TDC and both.
func (s Seen) Together(other Seen) float64 {
	a := s.from
	if a == nil || a != other.from {
		return 0
	}
	sum := 0.0
	for i := range a.read {
		sum += s.in.angle[i]*other.in.angle[i]*sq(a.sigmaX[i]) + s.in.depth[i]*other.in.depth[i]*sq(a.sigmaY[i])
	}
	for i := len(a.read); i < len(a.depth); i++ {
		sum += s.in.depth[i] * other.in.depth[i] * sq(a.sigmaY[i])
	}
	sum *= sq(a.widening.factor)
	for j, prior := range a.priors {
		if !math.IsInf(prior.Sigma, 1) {
			sum += s.in.truth[j] * other.in.truth[j] * sq(prior.Sigma)
		}
	}
	return sum + s.alongScale(other)
}

// alongScale is the protractor's share of a covariance, less what was counted as fresh.
func (s Seen) alongScale(other Seen) float64 {
	a := s.from
	fresh := 0.0
	for i := range a.read {
		fresh += s.in.angle[i] * other.in.angle[i]
	}
	for i := len(a.read); i < len(a.depth); i++ {
		fresh += s.in.depth[i] * other.in.depth[i] / 2
	}
	lines := s.at(other.weights) + other.at(s.weights) + s.sameLine(other) - fresh
	smooth := a.scale.unlike(s.apart) + a.scale.unlike(other.apart) - a.scale.unlike(s.apart-other.apart)
	return a.scale.together(s.weights, &a.scale, other.weights) + a.scale.own*lines + smooth
}

// sameLine is how much of two positions was read at the same lines, 0 to 1.
func (s Seen) sameLine(other Seen) float64 {
	sum := 0.0
	for _, line := range s.lines {
		for _, l := range other.lines {
			if l == line {
				sum += 1 / float64(len(s.lines)*len(other.lines))
			}
		}
	}
	return sum
}

// position is how far after TDC the crank stands, and what that rests on.
func (a *Adjustment) position(mean geometry.Angle) (u float64, in influence) {
	v := float64((mean - geometry.Angle(a.centre)).Signed()) - a.best.Beta[parTDC]
	u, sin, cos := onWheel(v, a.best.Beta[parWheelP], a.best.Beta[parWheelQ])
	in = newInfluence(len(a.depth)).add(-1, a.influence(parTDC))
	return u, in.add(1-cos, a.influence(parWheelP)).add(-sin, a.influence(parWheelQ))
}
