package seen

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// Witnesses is what else was read that tells whether all marks are late by what they are
// compared with. The other cylinders' TDCs come late by as much as the first one's was found
// early; a protractor or pointer that moved after all of them were read leaves them in their
// places. The first piston, read before the marks and again after them, shows it if that moved.
type Witnesses struct {
	setup  evidence.Setup
	others *said
	piston []said // before and after the marks; none where it does not tell
}

// said is by how much a witness was found late, and how sure that is, radians.
type said struct{ late, standard float64 }

// soundThrow is how far a sound crank's throws are out of their places, either way, where the
// engine's limit is not stated (common practice, no source).
const soundThrow = 0.5 * geometry.Degree

// Hear is what is to be heard beside marks that were judged by the first of some results; nil
// where there is no other cylinder. It is only asked of a protractor that was set once: of
// several sets a mark may be of another than the throws.
func Hear(setup evidence.Setup, results []tdc.Result, throws []mark.JudgedThrow, marks []mark.Judged) *Witnesses {
	w := &Witnesses{setup: setup, others: otherCylinders(setup.Engine, throws)}
	if w.others == nil || len(results[0].Earlier) > 0 {
		return nil
	}
	w.piston = beforeAndAfter(results[0], marks)
	return w
}

// otherCylinders is the middle one of the throws that tell, as sure as the middle one is known
// and the first throw stands in its own place: a bent rod or one throw that is out is then not
// taken for the first cylinder's TDC.
func otherCylinders(engine evidence.Engine, throws []mark.JudgedThrow) *said {
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
	return &said{gum.Median(late), math.Hypot(gum.Median(standard), float64(limit)/math.Sqrt(3))}
}

// beforeAndAfter is by how much more the protractor shows at a piston's readings before the
// marks, and at those after, than their curve has it; nothing where nobody said when a mark was
// read, where something moved among the readings, and where the crank was turned one way only:
// unread lash is in all of them then.
func beforeAndAfter(r tdc.Result, marks []mark.Judged) []said {
	first, last := len(r.Readings), 0
	for _, m := range marks {
		switch {
		case m.Off != nil:
		case m.After == nil:
			return nil
		default:
			first, last = min(first, *m.After), max(last, *m.After)
		}
	}
	oneWay := !slices.ContainsFunc(r.Readings, func(j adjust.Judged) bool { return j.Turn != r.Readings[0].Turn })
	if last > len(r.Readings) || oneWay || r.Slip != nil {
		return nil
	}
	return []said{shown(r, r.Readings[:first]), shown(r, r.Readings[last:])}
}

// shown is by how much more the protractor shows at some of a piston's readings than its curve
// has it: of none no number, which differs from nothing and so speaks against nothing.
func shown(r tdc.Result, read []adjust.Judged) said {
	var sum, weights float64
	for _, j := range read {
		p := r.Curve(j.Turn, []geometry.Angle{r.FromTDC(j.Angle)})[0]
		u := float64(r.ResidualUncertainty(p))
		sum -= float64(j.Residual) * float64(p.Slope) / (u * u)
		weights += float64(p.Slope) * float64(p.Slope) / (u * u)
	}
	return said{sum / weights, math.Hypot(1/math.Sqrt(weights), float64(r.AgreeTo.Uncertainty))}
}

// Left is those of a group's parts, by their places in it, that may be what has moved where
// the group is late by so much: not what a witness speaks against. The first cylinder's TDC
// stands for the protractor too, which is only told of where that TDC is ruled out.
func (s *System) Left(g Group, late gum.Estimate) (left []int) {
	zero := false
	for k, j := range g.Parts {
		own, kind := late, s.Parts[j].Kind
		own.Angle *= geometry.Angle(g.Signs[k])
		if kind == Scale && zero || s.witnesses != nil && s.witnesses.against(kind, own) {
			continue
		}
		left, zero = append(left, k), zero || kind == ZeroPoint
	}
	return left
}

// against tells whether the witnesses speak against a kind of part that is late by so much. A
// given angle that counts from elsewhere looks like a protractor that moved, and no piston that
// is read again tells of it.
func (w Witnesses) against(k Kind, late gum.Estimate) bool {
	switch k {
	case ZeroPoint:
		return w.others.not(late)
	case Scale:
		_, offset := mark.OffsetMakes(w.setup, late.Angle, late.Expanded, false)
		return w.others.only(late) || len(w.piston) > 0 && w.piston[0].not(late) && w.piston[1].not(late) && !offset
	}
	return false
}

// seldom is by how many standard uncertainties a witness differs from what is so in one job in
// 20. A witness speaks against something only where it also agrees with the other: by both it is
// wrong in less than one job in 100, whatever the size.
var seldom = gum.Normal95

// differs tells whether a witness is not late by so much, which is known to a standard
// uncertainty.
func (s said) differs(from, standard geometry.Angle) bool {
	return math.Abs(s.late-float64(from)) > seldom*math.Hypot(s.standard, float64(standard))
}

// not tells whether a witness is in its place and not as late as something: one that is neither
// speaks against nothing, and one that may be either as little.
func (s said) not(late gum.Estimate) bool {
	return !s.differs(0, 0) && s.differs(late.Angle, late.Uncertainty)
}

// only tells whether a witness is as late as something and not in its place.
func (s said) only(late gum.Estimate) bool {
	return s.differs(0, 0) && !s.differs(late.Angle, late.Uncertainty)
}
