package look

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
)

// trimmed looks for the rough curve through the three quarters of the readings
// that agree best: least trimmed squares (Rousseeuw1984), which no quarter of the
// readings can draw away.
type trimmed struct {
	depth      []float64
	drop, size []float64
	sorted     []float64
}

// Trimmed tries TDC as All does, with the readings at the top of the stroke, and is
// drawn away by no quarter of them.
func Trimmed(crank geometry.SliderCrank, angle, depth []float64) Rough {
	angle, depth = thinned(angle), thinned(depth)
	n := len(angle)
	t := trimmed{depth, make([]float64, n), make([]float64, n), make([]float64, n)}
	best := none
	try := func(tdc float64) {
		near := drops(t.drop, crank, angle, tdc)
		if found, ok := t.line(); ok && near > 0 && found.Scale > 0 && found.Misfit < best.Misfit {
			found.TDC = tdc
			best = found
		}
	}
	round(0, try, func() []Rough { return []Rough{best} })
	return best
}

// line is the trimmed line depth = zero + scale drop, from one of the engine's own
// scale by concentrating on the readings nearest to it.
func (t *trimmed) line() (Rough, bool) {
	n := len(t.drop)
	kept := n - n/4
	for i, x := range t.drop {
		t.sorted[i] = t.depth[i] - x
	}
	found := Rough{Scale: 1, Zero: gum.Median(t.sorted)}
	const rounds = 3
	for range rounds {
		limit := t.residuals(found)[kept-1]
		var drop, depth []float64
		for i, s := range t.size {
			if s <= limit {
				drop, depth = append(drop, t.drop[i]), append(depth, t.depth[i])
			}
		}
		var ok bool
		if found, ok = line(drop, depth); !ok {
			return found, false
		}
	}
	found.Misfit = gum.Mean(t.residuals(found)[:kept])
	return found, true
}

// residuals fills size with the absolute residuals, and gives them sorted.
func (t *trimmed) residuals(r Rough) []float64 {
	for i, x := range t.drop {
		t.size[i] = math.Abs(t.depth[i] - r.Zero - r.Scale*x)
	}
	copy(t.sorted, t.size)
	slices.Sort(t.sorted)
	return t.sorted
}
