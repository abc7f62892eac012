package joint

import (
	"math"

	"gonum.org/v1/gonum/stat/combin"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/fit/gum"
	"evendrop/tdc/mark"
)

// search solves sets of groups by generalised least squares. Whitened, the marks
// are y and the columns B; of a set S the slips are x = (B'B)^-1 B'y over S and
// chi-square is y'y - x'B'y, so that B'B and B'y are worked out once.
type search struct {
	findings  []mark.Judged
	built     []built
	groups    []group
	gram      [][]float64 // B'B
	turns     []unwrapped
	allowance float64     // ofAll marks
	units     []unwrapped // each mark alone off by one, which shows its weight in a slip
}

// unwrapped is the marks with whole periods put back.
type unwrapped struct {
	off []float64 // radians
	by  []float64 // B'y
	own float64   // y'y
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

func newSearch(w *whitener, findings []mark.Judged, built []built, groups []group) *search {
	s := &search{findings: findings, built: built, groups: groups, allowance: ofAll(len(findings))}
	white := make([][]float64, len(groups))
	for j, g := range groups {
		white[j] = w.white(g.column)
	}
	for j := range groups {
		row := make([]float64, len(groups))
		for k := range groups {
			row[k] = product(white[j], white[k])
		}
		s.gram = append(s.gram, row)
	}
	projected := func(off []float64) unwrapped {
		y := w.white(off)
		u := unwrapped{off: off, own: product(y, y)}
		for j := range groups {
			u.by = append(u.by, product(white[j], y))
		}
		return u
	}
	for _, off := range unwrappings(findings, groups) {
		s.turns = append(s.turns, projected(off))
	}
	for i := range findings {
		unit := make([]float64, len(findings))
		unit[i] = 1
		s.units = append(s.units, projected(unit))
	}
	return s
}

// count is how many sets of a size there are.
func (s *search) count(size int) float64 {
	if size > len(s.groups) {
		return 0
	}
	return combin.GeneralizedBinomial(float64(len(s.groups)), float64(size)) * float64(len(s.turns))
}

// sets is every set of a size that explains the marks, each with the whole turns
// that suit it best.
func (s *search) sets(size int) []fitted {
	var kept []fitted
	if size == 0 {
		return s.try(nil)
	}
	if size > len(s.groups) {
		return nil
	}
	set := make([]int, size)
	for generator := combin.NewCombinationGenerator(len(s.groups), size); generator.Next(); {
		kept = append(kept, s.try(generator.Combination(set))...)
	}
	return kept
}

// try is a set's best solution, or nothing when none explains the marks.
func (s *search) try(set []int) []fitted {
	factor, independent := s.factor(set)
	if !independent {
		return nil
	}
	var best []fitted
	for _, turned := range s.turns {
		x, chi := solve(factor, set, turned)
		f := fitted{chiSquare: chi, degrees: len(s.findings) - len(set), shift: x}
		if len(best) > 0 && chi >= best[0].chiSquare || !s.explains(turned.off, set, f) {
			continue
		}
		var apart bool
		if f.slips, apart = s.estimates(factor, set, turned.off, f); apart {
			f.beyond = s.beyond(turned.off, set, x)
			best = []fitted{f}
		}
	}
	for i := range best {
		best[i].set = append([]int(nil), set...)
		best[i].p = math.NaN()
		if degrees := best[i].degrees; degrees > 0 {
			best[i].p = distuv.ChiSquared{K: float64(degrees)}.Survival(best[i].chiSquare)
		}
	}
	return best
}

// explains is the rule that Explain states.
func (s *search) explains(off []float64, set []int, fit fitted) bool {
	chance := fit.byChance()
	for i, f := range s.findings {
		left := s.left(i, off, set, fit.shift)
		beyond := math.Abs(left)/float64(f.Expanded) - 1
		if f.HasLimit {
			beyond -= f.Limit.Radians() / float64(f.Expanded)
		}
		most := 0.0 // by which it may be beyond, in Expanded
		switch {
		case chance && !f.HasLimit:
			most = math.Inf(1)
		case chance && len(set) > 0:
			most = s.allowance
		}
		if beyond > most {
			return false
		}
	}
	return true
}

// left is what slips leave of a mark's shift.
func (s *search) left(i int, off []float64, set []int, shift []float64) float64 {
	left := off[i]
	for k, j := range set {
		left -= s.groups[j].column[i] * shift[k]
	}
	return left
}

// rounding is what sums of angles leave of nothing, radians: a mark that a slip explains is
// within a limit of 0 on every machine.
const rounding = 1e-12

// beyond tells whether slips leave a mark farther off than its limit.
func (s *search) beyond(off []float64, set []int, shift []float64) bool {
	for i, f := range s.findings {
		if f.HasLimit && math.Abs(s.left(i, off, set, shift)) > f.Limit.Radians()+rounding {
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
