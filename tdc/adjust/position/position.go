// Package position is how far after TDC the crank stands at places of the protractor, what
// that rests on, and what any two of them share.
package position

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
)

// Seen is where the crank stands when the protractor shows an angle, and how sure that
// is, by what would make it surer.
type Seen struct {
	Angle    geometry.Angle // after TDC
	Readings gum.Component  // further readings of the piston shrink it
	Own      gum.Component  // further readings of the position shrink it
	scale    float64        // variance, radians squared, of the protractor's error between TDC and here; negative where the readings were taken at this line

	from    *adjust.Adjustment
	in      solve.Influence
	weights []float64      // of the lines that TDC was read at
	lines   []solve.OnLine // that the position was read at
	places  []Graduation   // of the position on the protractor
	line    float64        // standard uncertainty of the error of its one line, radians; 0 of a position through several, where Scale has theirs
	ranges  []float64      // standard uncertainties of stated ranges of the position's own, radians
}

// After is how far after TDC the crank stands when the protractor shows what was
// read, repeats of one position averaged, and how sure that is. The protractor's
// own error at the position is the same in every repeat; the rounding is not,
// nor is what the repeats scatter.
func After(a *adjust.Adjustment, read []geometry.Angle) Seen {
	mean, component := gum.Repeated(read, a.Setup.Protractor.Step)
	u, in := at(a, mean)
	s := Seen{Angle: geometry.Angle(u), Own: component, places: []Graduation{{mean, 1}}, line: math.Sqrt(a.Lines.Own)}
	p := s.rest(a, in)
	for _, angle := range read {
		s.readAt(angle, 1/float64(len(read)))
	}
	s.scale = p.Common + s.smooth(s) + 2*a.Lines.Own*a.Lines.At(s.lines, s.weights)
	return s
}

// rest makes a position rest on an adjustment, which it answers to so, and is what that
// contributes.
func (s *Seen) rest(a *adjust.Adjustment, in solve.Influence) solve.Parts {
	p := a.Parts(in)
	s.from, s.in, s.weights = a, in, a.Lines.Weights(in, len(a.Read))
	s.Readings = gum.Component{Standard: math.Hypot(a.Widening.Factor*math.Sqrt(p.Read()), float64(a.Doubt)*s.whole()), Degrees: a.Widening.Degrees}
	return p
}

// whole is how the position answers to TDC: 1 of one after it, 0 of an angle between two.
func (s *Seen) whole() float64 {
	sum := 0.0
	for _, p := range s.places {
		sum += p.Weight
	}
	return sum
}

// readAt takes up a line that the position was read at.
func (s *Seen) readAt(angle geometry.Angle, weight float64) {
	if line, shared := s.from.Lines.Line(angle); shared {
		s.lines = append(s.lines, solve.OnLine{Line: line, Weight: weight})
	}
}

// Spread is all of it together.
func (s Seen) Spread() gum.Spread { return Combine([]Seen{s}, geometry.Turn).Spread() }

// ofTDC is the part of its uncertainty that the TDC it is measured from leaves every
// position, radians, standard.
func (s Seen) ofTDC() float64 {
	p := s.from.Parts(s.in)
	return math.Sqrt(math.Max(0, sq(s.Readings.Standard)+p.Common) + p.Priors())
}

// tdcWith is what the TDCs of two sets leave any two positions.
func (s Seen) tdcWith(other Seen) float64 {
	own, its := s.stated(), other.stated()
	sum := s.from.Lines.Together(s.weights, &other.from.Lines, other.weights)
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
func (s Seen) stated() (of [curve.Count]float64) {
	for j, prior := range s.from.Priors {
		if s.in.Truth[j] != 0 && !math.IsInf(prior.Sigma, 1) {
			of[j] = s.in.Truth[j] * prior.Sigma
		}
	}
	return of
}

// ofEngineOrGauge tells whether a parameter is the same wherever the protractor is set:
// all are but the place of its centre.
func ofEngineOrGauge(parameter int) bool {
	return parameter != curve.WheelP && parameter != curve.WheelQ
}

// scatterWith is what the readings' own scatter leaves two positions, the error of their
// lines taken out.
func (s Seen) scatterWith(other Seen) float64 {
	a := s.from
	if a != other.from {
		return 0
	}
	sum, fresh := 0.0, 0.0
	for i := range a.Read {
		fresh += s.in.Angle[i] * other.in.Angle[i]
		sum += s.in.Angle[i]*other.in.Angle[i]*sq(a.SigmaX[i]) + s.in.Depth[i]*other.in.Depth[i]*sq(a.SigmaY[i])
	}
	for i := len(a.Read); i < len(a.Depth); i++ {
		fresh += s.in.Depth[i] * other.in.Depth[i] / 2
		sum += s.in.Depth[i] * other.in.Depth[i] * sq(a.SigmaY[i])
	}
	return sum*sq(a.Widening.Factor) - a.Lines.Own*fresh + sq(float64(a.Doubt))*s.whole()*other.whole()
}

// alongScale is the protractor's share of a covariance: of the lines at which positions
// and pistons were read, and of its smooth part, by how far apart they are.
func (s Seen) alongScale(other Seen) float64 {
	a, b := s.from, other.from
	lines := a.Lines.At(other.lines, s.weights) + b.Lines.At(s.lines, other.weights) + s.sameLine(other)
	return a.Lines.Together(s.weights, &b.Lines, other.weights) + a.Lines.Own*lines + s.smooth(other)
}

// smooth is what a smooth error leaves two positions, each the protractor's error there
// less that at its own TDC.
func (s Seen) smooth(other Seen) float64 {
	scale, own, its := s.from.Lines, s.from.At(), other.from.At()
	sum := 0.0
	for _, p := range s.places {
		for _, q := range other.places {
			sum += p.Weight * q.Weight * (scale.Unlike(p.Angle-its) + scale.Unlike(own-q.Angle) - scale.Unlike(p.Angle-q.Angle) - scale.Unlike(own-its))
		}
	}
	return sum
}

// sameLine is how much of two positions was read at the same lines: 1 of two that were
// read at one.
func (s Seen) sameLine(other Seen) float64 {
	sum := 0.0
	for _, l := range s.lines {
		for _, o := range other.lines {
			if o.Line == l.Line {
				sum += l.Weight * o.Weight
			}
		}
	}
	return sum
}

// at is how far after TDC the crank stands, and what that rests on.
func at(a *adjust.Adjustment, mean geometry.Angle) (u float64, in solve.Influence) {
	v := float64((mean - geometry.Angle(a.Centre)).Signed()) - a.Best.Beta[curve.TDC] - float64(a.Shift)
	u, sin, cos := curve.OnWheel(v, a.Best.Beta[curve.WheelP], a.Best.Beta[curve.WheelQ])
	in = solve.NewInfluence(len(a.Depth)).Add(-1, a.Influence(curve.TDC))
	return u, in.Add(1-cos, a.Influence(curve.WheelP)).Add(-sin, a.Influence(curve.WheelQ))
}
