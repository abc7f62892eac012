package joint

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/stat/combin"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/fit/gum"
	"evendrop/fit/subset"
	"evendrop/tdc/mark/joint/seen"
)

// search looks for the sets of groups that explain the marks, by generalised least
// squares.
type search struct {
	*seen.System
	columns   *subset.Columns // the groups'
	turns     []unwrapped
	allowance float64           // ofAll marks
	units     []subset.Observed // each mark alone off by one, which shows its weight in a slip
}

// unwrapped is the marks with whole periods put back.
type unwrapped struct {
	off []float64 // radians
	subset.Observed
}

// fitted is a set that explains the marks.
type fitted struct {
	set          []int
	shift        []float64 // radians
	slips        []gum.Estimate
	chiSquare, p float64
	degrees      int
	beyond       bool // it leaves a mark farther off than its limit, though not beyond doubt
}

// whole tells whether chance explains what a set leaves and every mark is within its limit.
func (f fitted) whole() bool { return f.byChance() && !f.beyond }

// byChance tells whether chance explains what a set leaves: chi-square does not
// reject it at 5 %.
func (f fitted) byChance() bool { return f.degrees == 0 || f.chiSquare <= chiSquare95(f.degrees) }

// likely tells whether neither chance nor the best of as many slips speaks against
// a set.
func (f fitted) likely(least float64) bool { return f.byChance() && f.chiSquare <= least+muchLess }

// size is the sum of the slips, whichever way.
func (f fitted) size() float64 {
	sum := 0.0
	for _, x := range f.shift {
		sum += math.Abs(x)
	}
	return sum
}

func newSearch(marks *seen.System) (*search, error) {
	columns := make([][]float64, len(marks.Groups))
	for j, g := range marks.Groups {
		columns[j] = g.Column
	}
	c, weighed := subset.New(marks.Covariance, columns)
	if !weighed {
		return nil, errors.New("the marks' uncertainties are zero or not numbers: state known_to of each off")
	}
	s := &search{System: marks, columns: c, allowance: ofAll(len(marks.Marks))}
	for _, off := range unwrappings(marks.Marks, marks.Groups) {
		s.turns = append(s.turns, unwrapped{off, c.Observe(off)})
	}
	for i := range marks.Marks {
		unit := make([]float64, len(marks.Marks))
		unit[i] = 1
		s.units = append(s.units, c.Observe(unit))
	}
	return s, nil
}

// count is how many sets of a size there are.
func (s *search) count(size int) float64 {
	if size > len(s.Groups) {
		return 0
	}
	return combin.GeneralizedBinomial(float64(len(s.Groups)), float64(size)) * float64(len(s.turns))
}

// sets is every set of a size that explains the marks, each with the whole turns
// that suit it best.
func (s *search) sets(size int) []fitted {
	var kept []fitted
	if size == 0 {
		return s.try(nil)
	}
	if size > len(s.Groups) {
		return nil
	}
	set := make([]int, size)
	for generator := combin.NewCombinationGenerator(len(s.Groups), size); generator.Next(); {
		kept = append(kept, s.try(generator.Combination(set))...)
	}
	return kept
}

// try is a set's best solution, or nothing when none explains the marks.
func (s *search) try(set []int) []fitted {
	factor, independent := s.columns.Factor(set)
	if !independent {
		return nil
	}
	var best []fitted
	for _, turned := range s.turns {
		x, chi := factor.Solve(turned.Observed)
		f := fitted{set: set, chiSquare: chi, degrees: len(s.Marks) - len(set), shift: x}
		if len(best) > 0 && chi >= best[0].chiSquare || !s.explains(turned.off, f) {
			continue
		}
		var apart bool
		if f.slips, apart = s.estimates(&factor, turned.off, f); apart {
			f.beyond = s.beyond(turned.off, f)
			best = []fitted{f}
		}
	}
	for i := range best {
		best[i].set = append([]int(nil), set...) // the generator writes over its own
		best[i].p = math.NaN()
		if degrees := best[i].degrees; degrees > 0 {
			best[i].p = distuv.ChiSquared{K: float64(degrees)}.Survival(best[i].chiSquare)
		}
	}
	return best
}

// explains is the rule that Explain states.
func (s *search) explains(off []float64, f fitted) bool {
	chance := f.byChance()
	for i, m := range s.Marks {
		left := s.left(i, off, f)
		beyond := math.Abs(left)/float64(m.Expanded) - 1
		if m.HasLimit {
			beyond -= m.Limit.Radians() / float64(m.Expanded)
		}
		most := 0.0 // by which it may be beyond, in Expanded
		switch {
		case chance && !m.HasLimit:
			most = math.Inf(1)
		case chance && len(f.set) > 0:
			most = s.allowance
		}
		if beyond > most {
			return false
		}
	}
	return true
}

// left is what slips leave of a mark's shift.
func (s *search) left(i int, off []float64, f fitted) float64 {
	left := off[i]
	for k, j := range f.set {
		left -= s.Groups[j].Column[i] * f.shift[k]
	}
	return left
}

// rounding is what sums of angles leave of nothing, radians: a mark that a slip explains is
// within a limit of 0 on every machine.
const rounding = 1e-12

// beyond tells whether slips leave a mark farther off than its limit.
func (s *search) beyond(off []float64, f fitted) bool {
	for i, m := range s.Marks {
		if m.HasLimit && math.Abs(s.left(i, off, f)) > m.Limit.Radians()+rounding {
			return true
		}
	}
	return false
}

// ofAll is how much farther than its own 95 % interval one of so many marks may be
// from its limit before all of them together are as sure as 99 % (Bonferroni).
func ofAll(marks int) float64 {
	return distuv.UnitNormal.Quantile(1-0.005/float64(marks))/distuv.UnitNormal.Quantile(0.975) - 1
}

// chiSquare95 is the 0.95 quantile of chi-square.
func chiSquare95(degrees int) float64 {
	if degrees >= len(chiSquares) {
		return distuv.ChiSquared{K: float64(degrees)}.Quantile(0.95)
	}
	return chiSquares[degrees]
}

// chiSquares keeps the quantiles that are asked for again and again.
var chiSquares = func() (quantiles [64]float64) {
	for k := 1; k < len(quantiles); k++ {
		quantiles[k] = distuv.ChiSquared{K: float64(k)}.Quantile(0.95)
	}
	return quantiles
}()
