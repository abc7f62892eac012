package seen

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// Others is what the other cylinders' TDCs say of the first one's: they come late by as much
// as it was found early, and a protractor or pointer that moved after all of them were read
// leaves them where they should be.
type Others struct {
	late, standard float64 // radians
}

// soundThrow is how far a sound crank's throws are out of their places, either way, where the
// engine's limit is not stated (common practice, no source).
const soundThrow = 0.5 * geometry.Degree

// OthersOf is the middle one of the throws that tell, as sure as the middle one is known and a
// sound throw stands in its place; nil where none tells. A bent rod or a throw that is out is
// then not taken for the first cylinder's TDC.
func OthersOf(engine evidence.Engine, throws []mark.JudgedThrow) *Others {
	var late, standard []float64
	for _, t := range throws {
		if t.Expanded > 0 && !t.CannotTell && !t.Moved {
			late, standard = append(late, float64(t.Angle)), append(standard, float64(t.Uncertainty))
		}
	}
	if len(late) == 0 {
		return nil
	}
	limit := soundThrow
	if engine.ThrowLimit > 0 {
		limit = engine.ThrowLimit
	}
	return &Others{gum.Median(late), math.Hypot(gum.Median(standard), float64(limit)/math.Sqrt(3))}
}

// seldom is by how many standard uncertainties other cylinders differ from what is so in one
// job in 100.
const seldom = 2.576

// differ tells whether the others are not as late as something would make them, which is known
// to a standard uncertainty; radians.
func (o Others) differ(from, standard float64) bool {
	return math.Abs(o.late-from) > seldom*math.Hypot(o.standard, standard)
}

// Left is those of a group's parts, by their places in it, that may be what has moved where
// the group is late by so much: not the first cylinder's TDC where the others come in their
// places, nor protractor or pointer where they are all as late. Where they are neither, or may
// be either, both are left.
func (s *System) Left(g Group, late gum.Estimate) (left []int) {
	for k, j := range g.Parts {
		if s.others == nil || !s.others.against(s.Parts[j], g.Signs[k]*float64(late.Angle), float64(late.Uncertainty)) {
			left = append(left, k)
		}
	}
	return left
}

// against tells whether the others speak against a part that is late by so much, radians.
func (o Others) against(p Part, late, standard float64) bool {
	inPlace, asLate := !o.differ(0, 0), !o.differ(late, standard)
	switch p.Kind {
	case ZeroPoint:
		return inPlace && !asLate
	case Scale:
		return asLate && !inPlace
	}
	return false
}
