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

	from    *Adjustment
	in      influence
	weights []float64      // of the lines that TDC was read at
	lines   []int          // that the position was read at
	place   geometry.Angle // of the position on the protractor
}

// After is how far after TDC the crank stands when the protractor shows what was
// read, repeats of one position averaged, and how sure that is. The protractor's
// own error at the position is the same in every repeat; the rounding is not,
// nor is what the repeats scatter.
func (a *Adjustment) After(read []geometry.Angle) Seen {
	mean, component := gum.Repeated(read, a.setup.Protractor.Step)
	u, in := a.position(mean)
	s := Seen{Angle: geometry.Angle(u), Own: component, from: a, in: in, weights: a.scale.weights(in, len(a.read)), place: mean}
	for _, angle := range read {
		if line, shared := a.scale.line(angle); shared {
			s.lines = append(s.lines, line)
		}
	}
	p := a.parts(in)
	s.Readings = gum.Component{Standard: math.Hypot(a.widening.factor*math.Sqrt(p.read()), a.doubt), Degrees: a.widening.degrees}
	s.Scale = p.common + s.smooth(s) + 2*a.scale.own*a.scale.at(s.lines, s.weights)
	return s
}

// Spread is all of it together.
func (s Seen) Spread() gum.Spread { return Combine([]Seen{s}, geometry.Turn).Spread() }

// OfTDC is the part of its uncertainty that the TDC it is measured from leaves every
// position, radians, standard.
func (s Seen) OfTDC() float64 {
	p := s.from.parts(s.in)
	return math.Sqrt(math.Max(0, sq(s.Readings.Standard)+p.common) + p.priors())
}

// tdcWith is what the TDCs of two sets leave any two positions.
func (s Seen) tdcWith(other Seen) float64 {
	own, its := s.stated(), other.stated()
	sum := s.from.scale.together(s.weights, &other.from.scale, other.weights)
	for j := range own {
		if ofEngineOrGauge(j) {
			sum += own[j] * its[j]
		}
	}
	return sum
}

// Covariance is what two positions share, radians squared: of one setting of the
// protractor what its readings leave both, and of any the stated ranges and the
// protractor's error, which is one curve through both and through the TDC of each.
func (s Seen) Covariance(other Seen) float64 {
	sum := s.scatterWith(other) + s.alongScale(other)
	own, its := s.stated(), other.stated()
	for j := range own {
		if s.from == other.from || ofEngineOrGauge(j) {
			sum += own[j] * its[j]
		}
	}
	return sum
}

// stated is what each stated range leaves the position, with its sign, radians standard.
func (s Seen) stated() (of [parCount]float64) {
	for j, prior := range s.from.priors {
		if s.in.truth[j] != 0 && !math.IsInf(prior.Sigma, 1) {
			of[j] = s.in.truth[j] * prior.Sigma
		}
	}
	return of
}

// ofEngineOrGauge tells whether a parameter is the same wherever the protractor is set:
// all are but the place of its centre.
func ofEngineOrGauge(parameter int) bool { return parameter != parWheelP && parameter != parWheelQ }

// scatterWith is what the readings' own scatter leaves two positions, the error of their
// lines taken out.
func (s Seen) scatterWith(other Seen) float64 {
	a := s.from
	if a != other.from {
		return 0
	}
	sum, fresh := 0.0, 0.0
	for i := range a.read {
		fresh += s.in.angle[i] * other.in.angle[i]
		sum += s.in.angle[i]*other.in.angle[i]*sq(a.sigmaX[i]) + s.in.depth[i]*other.in.depth[i]*sq(a.sigmaY[i])
	}
	for i := len(a.read); i < len(a.depth); i++ {
		fresh += s.in.depth[i] * other.in.depth[i] / 2
		sum += s.in.depth[i] * other.in.depth[i] * sq(a.sigmaY[i])
	}
	return sum*sq(a.widening.factor) - a.scale.own*fresh + sq(a.doubt)
}

// alongScale is the protractor's share of a covariance: of the lines at which positions
// and pistons were read, and of its smooth part, by how far apart they are.
func (s Seen) alongScale(other Seen) float64 {
	a, b := s.from, other.from
	lines := a.scale.at(other.lines, s.weights) + b.scale.at(s.lines, other.weights) + s.sameLine(other)
	return a.scale.together(s.weights, &b.scale, other.weights) + a.scale.own*lines + s.smooth(other)
}

// smooth is what a smooth error leaves two positions, each the protractor's error there
// less that at its own TDC.
func (s Seen) smooth(other Seen) float64 {
	scale, own, its := s.from.scale, s.from.at(), other.from.at()
	return scale.unlike(s.place-its) + scale.unlike(own-other.place) - scale.unlike(s.place-other.place) - scale.unlike(own-its)
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
	v := float64((mean - geometry.Angle(a.centre)).Signed()) - a.best.Beta[parTDC] - a.shift
	u, sin, cos := onWheel(v, a.best.Beta[parWheelP], a.best.Beta[parWheelQ])
	in = newInfluence(len(a.depth)).add(-1, a.influence(parTDC))
	return u, in.add(1-cos, a.influence(parWheelP)).add(-sin, a.influence(parWheelQ))
}
