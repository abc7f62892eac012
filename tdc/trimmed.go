package tdc

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
	crank        geometry.SliderCrank
	angle, depth []float64
	drop, size   []float64
	sorted       []float64
}

// trimmedLook tries TDC as look does, with the readings at the top of the stroke.
func trimmedLook(crank geometry.SliderCrank, angle, depth []float64) firstLook {
	angle, depth = thinned(angle), thinned(depth)
	n := len(angle)
	t := trimmed{crank, angle, depth, make([]float64, n), make([]float64, n), make([]float64, n)}
	best := firstLook{misfit: math.Inf(1)}
	for tdc := -math.Pi; tdc < math.Pi; tdc += lookStep {
		best = t.better(best, tdc)
	}
	for by := lookStep / 2; by >= lookFinest; by /= 2 {
		middle := best.tdc
		best = t.better(t.better(best, middle-by), middle+by)
	}
	return best
}

// better is the curve at tdc if it fits better than the best so far.
func (t *trimmed) better(best firstLook, tdc float64) firstLook {
	near := 0.0
	for i, a := range t.angle {
		t.drop[i] = float64(t.crank.Drop(geometry.Angle(a - tdc)))
		near += math.Cos(a - tdc)
	}
	if found, ok := t.line(); ok && near > 0 && found.scale > 0 && found.misfit < best.misfit {
		found.tdc = tdc
		return found
	}
	return best
}

// line is the trimmed line depth = zero + scale drop, from one of the engine's own
// scale by concentrating on the readings nearest to it.
func (t *trimmed) line() (firstLook, bool) {
	n := len(t.drop)
	kept := n - n/4
	for i, x := range t.drop {
		t.sorted[i] = t.depth[i] - x
	}
	found := firstLook{scale: 1, zero: gum.Median(t.sorted)}
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
	found.misfit = gum.Mean(t.residuals(found)[:kept])
	return found, true
}

// residuals fills size with the absolute residuals, and gives them sorted.
func (t *trimmed) residuals(f firstLook) []float64 {
	for i, x := range t.drop {
		t.size[i] = math.Abs(t.depth[i] - f.zero - f.scale*x)
	}
	copy(t.sorted, t.size)
	slices.Sort(t.sorted)
	return t.sorted
}
