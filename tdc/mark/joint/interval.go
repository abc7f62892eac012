package joint

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/fit/subset"
	"evendrop/geometry"
)

// estimates is each slip of a set with its 95 % interval, and whether each of
// those leaves zero out.
func (s *search) estimates(factor *subset.Factor, off []float64, f fitted) (slips []gum.Estimate, apart bool) {
	for k, spread := range s.spreads(factor, f) {
		if len(f.set) > 1 && math.Abs(f.shift[k]) <= narrowest*spread.Standard() {
			return nil, false
		}
		e := spread.Estimate(geometry.Angle(f.shift[k]))
		if len(f.set) == 1 {
			e = s.within(f.set[0], off, e)
		}
		if math.Abs(float64(e.Angle)) <= float64(e.Expanded) {
			return nil, false
		}
		slips = append(slips, e)
	}
	return slips, true
}

// narrowest is the least that a 95 % interval's half-width can be, in standard
// uncertainties: 0.95 sqrt(3), of an error that is rectangular.
var narrowest = 0.95 * math.Sqrt(3)

// spreads is the uncertainty of each slip of a set: from what was measured, close
// to normal, and from where each mark or wheel was made, rectangular. Birge's ratio widens
// it where the set leaves more than those explain (Birge1932).
func (s *search) spreads(factor *subset.Factor, f fitted) []gum.Spread {
	wide, fewest := 1.0, math.Inf(1)
	if f.degrees > 0 {
		wide = math.Sqrt(math.Max(1, f.chiSquare/float64(f.degrees)))
	}
	spreads, total := make([]gum.Spread, len(f.set)), factor.Uncertainties()
	for _, m := range s.Marks {
		fewest = math.Min(fewest, m.DegreesOfFreedom)
	}
	weights := make([][]float64, len(s.Marks)) // of each mark in each slip
	for i := range weights {
		weights[i], _ = factor.Solve(s.units[i])
	}
	built := make([]float64, len(f.set)) // variance
	for _, b := range s.Built {
		for k := range f.set {
			part := 0.0
			for n, i := range b.Marks {
				part += weights[i][k] * b.Signs[n] * b.Standard
			}
			built[k] += part * part
			spreads[k].Rectangular = append(spreads[k].Rectangular, wide*part)
		}
	}
	for k := range f.set {
		measured := math.Sqrt(math.Max(0, total[k]*total[k]-built[k]))
		spreads[k].Normal = []gum.Component{{Standard: wide * measured, Degrees: fewest}}
	}
	return spreads
}

// within is the slip of one group, cut to what leaves no mark outside its limit:
// nothing else moves the marks that it moves, and no sound mark is made outside.
// Where that cuts, the middle of what is left is the estimate. An estimate that
// leaves a mark outside itself stays as it is.
func (s *search) within(g int, off []float64, e gum.Estimate) gum.Estimate {
	low, high := float64(e.Angle-e.Expanded), float64(e.Angle+e.Expanded)
	for i, m := range s.Marks {
		if c := s.Groups[g].Column[i]; c != 0 && m.HasLimit {
			reach := float64(m.Limit + m.Expanded)
			low, high = math.Max(low, off[i]/c-reach), math.Min(high, off[i]/c+reach)
		}
	}
	middle, half := geometry.Angle(low+high)/2, geometry.Angle(high-low)/2
	if at := float64(e.Angle); half == e.Expanded || at < low || at > high {
		return e
	}
	e.Angle, e.Uncertainty, e.Expanded = middle, e.Uncertainty*half/e.Expanded, half
	return e
}

// limits is by how much each group may have moved alone, as sure as 95 %, the
// marks being what they are.
func (s *search) limits() []geometry.Angle {
	limits := make([]geometry.Angle, len(s.Groups))
	off := s.turns[0]
	for j := range s.Groups {
		set := []int{j}
		factor, _ := s.columns.Factor(set)
		x, _ := factor.Solve(off.Observed)
		e := s.within(j, off.off, s.spreads(&factor, fitted{set: set})[0].Estimate(geometry.Angle(x[0])))
		limits[j] = geometry.Angle(math.Abs(float64(e.Angle))) + e.Expanded
	}
	return limits
}
