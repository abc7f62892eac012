package mark

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
)

// Lobe is where a cam lobe stands: no single angle that was read, but several, weighed.
// The mark's ShouldBe is weighed alike.
type Lobe struct {
	Seen    position.Seen    // by the protractor
	Card    []geometry.Angle // what it is held against, to be told from another
	Doubt   geometry.Angle   // standard uncertainty of ShouldBe that all lobes of the same healthy engines share
	Healthy bool             // ShouldBe is what healthy engines showed
	Engines int              // so many
	Among   gum.Component    // how several of them differ, which no two lobes share, radians
}

// spread is how sure what the lobe is held against is.
func (l Lobe) spread() (s gum.Spread) {
	if l.Doubt > 0 {
		s.Normal = []gum.Component{{Standard: float64(l.Doubt), Degrees: math.Inf(1)}}
	}
	if l.Among.Standard > 0 {
		s.Normal = append(s.Normal, l.Among)
	}
	return s
}

// sameCard tells whether two lobes are held against the same card.
func (l Lobe) sameCard(other Lobe) bool {
	const rounding = 1e-6 * geometry.Degree
	return slices.EqualFunc(l.Card, other.Card, func(a, b geometry.Angle) bool {
		return math.Abs(float64((a - b).Signed())) < float64(rounding)
	})
}

// AgainstHealthy tells whether a mark is compared with what healthy engines showed.
func (m Mark) AgainstHealthy() bool { return m.Healthy != nil || m.Lobe != nil && m.Lobe.Healthy }

// ofLobe is a lobe, read in one set or several, whose turn of the two in a cycle nothing
// tells. Each set weighs opening and closing by slopes of its own, and so what the lobe is
// held against: all are put where the first one has that.
func (f *Judged) ofLobe(result tdc.Result, sets []Mark) {
	sets = slices.SortedFunc(slices.Values(sets), func(a, b Mark) int { return evidence.SetOf(a.Set) - evidence.SetOf(b.Set) })
	var seen []position.Seen
	for _, m := range sets {
		if m.Lobe.Healthy != f.Lobe.Healthy {
			continue // a curve and a card are no one thing to be held against
		}
		s := m.Lobe.Seen
		s.Angle += f.ShouldBe - m.ShouldBe
		seen = append(seen, s)
		f.Sets = append(f.Sets, InSet{Set: evidence.SetOf(m.Set), Estimate: s.Spread().Estimate(s.Angle)})
		if evidence.SetOf(m.Set) == evidence.SetOf(result.Set) {
			f.last = 1
		}
	}
	f.combine(seen, geometry.Turn)
}

// OfLobe is what is wrong with a lobe, an *Error.
func OfLobe(m Mark, err error) error { return ofMark(-1, m, "%v", err) }

// NotInSet is what is wrong with a lobe of a set in which the piston of a cylinder was not
// read, an *Error.
func NotInSet(m Mark, cylinder int) error {
	return OfLobe(m, unread{cylinder, evidence.SetOf(m.Set)})
}
