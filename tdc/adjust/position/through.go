package position

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/solve"
)

// Graduation is a place on the protractor, and what a position answers with, radians per
// radian, when it moves.
type Graduation struct {
	Angle  geometry.Angle // crank, from the protractor's zero, turns counted
	Weight float64
}

// Through is a position that was not read but reckoned from several places of the
// protractor, such as the middle between two: the sum of their weights times where the
// crank stood at each, in one setting of the protractor. Weights that add up to 1 make a
// position after TDC; those that add up to zero make an angle between positions, in which
// TDC cancels. Own is what the rounding of the places, and whatever else is known of each,
// leaves it, and ranges the standard uncertainties of stated ranges that are its own,
// radians.
func Through(a *adjust.Adjustment, places []Graduation, own gum.Component, ranges ...float64) Seen {
	s := Seen{Own: own, places: places, ranges: ranges}
	in := solve.NewInfluence(len(a.Depth))
	for _, p := range places {
		from := p.Angle - a.At()
		u, one := at(a, p.Angle)
		s.Angle += geometry.Angle(p.Weight) * (from + (geometry.Angle(u) - from).Signed())
		in = in.Add(p.Weight, one)
	}
	parts := s.rest(a, in)
	alone := 0.0 // of places on a protractor that is not read by lines
	for _, p := range places {
		if _, shared := a.Lines.Line(p.Angle); !shared {
			alone += sq(p.Weight)
		}
		s.readAt(p.Angle, p.Weight)
	}
	s.scale = parts.Common + s.smooth(s) + a.Lines.Own*(2*a.Lines.At(s.lines, s.weights)+s.sameLine(s)+alone)
	return s
}

// Less is how sure the angle from one position to another is: what they share cancels.
// What is left is taken for normal, but for ranges of their own.
func Less(s, other Seen) gum.Spread {
	variance := sq(s.Own.Standard) + sq(other.Own.Standard) + s.Covariance(s) + other.Covariance(other) - 2*s.Covariance(other)
	return gum.Spread{Normal: []gum.Component{{Standard: math.Sqrt(math.Max(0, variance)), Degrees: math.Inf(1)}}, Rectangular: slices.Concat(s.ranges, other.ranges)}
}
