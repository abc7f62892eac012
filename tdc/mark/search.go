package mark

import (
	"math"

	"gonum.org/v1/gonum/stat/combin"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
)

// search solves sets of groups by generalised least squares. Whitened, the marks
// are y and the columns B; of a set S the slips are x = (B'B)^-1 B'y over S and
// chi-square is y'y - x'B'y, so that B'B and B'y are worked out once.
type search struct {
	findings []Finding
	groups   []group
	gram     [][]float64 // B'B
	turns    []unwrapped
}

// unwrapped is the marks with whole periods put back.
type unwrapped struct {
	off []float64 // radians
	by  []float64 // B'y
	own float64   // y'y
}

// fitted is a set that explains the marks.
type fitted struct {
	set                []int
	shift, uncertainty []float64 // radians
	chiSquare, p       float64
	degrees            int
}

// size is the sum of the slips, whichever way.
func (f fitted) size() float64 {
	sum := 0.0
	for _, x := range f.shift {
		sum += math.Abs(x)
	}
	return sum
}

func newSearch(w *whitener, findings []Finding, groups []group) *search {
	s := &search{findings: findings, groups: groups}
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
	for _, off := range unwrappings(findings, groups) {
		y := w.white(off)
		u := unwrapped{off: off, own: product(y, y)}
		for j := range groups {
			u.by = append(u.by, product(white[j], y))
		}
		s.turns = append(s.turns, u)
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
	degrees, u := len(s.findings)-len(set), uncertainties(factor, len(set))
	var best []fitted
	for _, turned := range s.turns {
		x, chi := solve(factor, set, turned)
		if (len(best) == 0 || chi < best[0].chiSquare) && slipped(x, u) && s.explains(turned.off, set, x, chi, degrees) {
			best = []fitted{{chiSquare: chi, degrees: degrees, shift: x, uncertainty: u}}
		}
	}
	for i := range best {
		best[i].set = append([]int(nil), set...)
		best[i].p = math.NaN()
		if degrees > 0 {
			best[i].p = distuv.ChiSquared{K: float64(degrees)}.Survival(best[i].chiSquare)
		}
	}
	return best
}

// slipped tells whether each slip differs from nought, as sure as 95 %.
func slipped(x, u []float64) bool {
	for k := range x {
		if math.Abs(x[k]) <= normal95*u[k] {
			return false
		}
	}
	return true
}

// normal95 is the 0.975 quantile of the normal distribution.
var normal95 = distuv.UnitNormal.Quantile(0.975)

// explains is the rule that Explain states.
func (s *search) explains(off []float64, set []int, x []float64, chi float64, degrees int) bool {
	byChance, inside := degrees == 0 || chi <= chiSquare95(degrees), true
	for i, f := range s.findings {
		left := off[i]
		for k, j := range set {
			left -= s.groups[j].column[i] * x[k]
		}
		limit := f.Expanded
		if f.HasLimit {
			limit = f.Limit
			if len(set) == 0 && Decide(f.Angle, f.Expanded, limit) == Outside {
				return false
			}
		}
		inside = inside && math.Abs(left) <= float64(limit)
		if !inside && !byChance {
			return false
		}
	}
	return true
}

// limits is by how much each group may have moved alone, as sure as 95 %, the
// marks being what they are.
func (s *search) limits() []geometry.Angle {
	limits := make([]geometry.Angle, len(s.groups))
	for j := range s.groups {
		x, u := s.turns[0].by[j]/s.gram[j][j], 1/math.Sqrt(s.gram[j][j])
		limits[j] = geometry.Angle(math.Abs(x) + normal95*u)
	}
	return limits
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
