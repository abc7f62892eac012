package crank

// gaps are the parts of a lane that are free, from left to right, in degrees of the picture.
type gaps []gap

type gap struct{ from, to float64 }

// without is what is left where a part is taken.
func (free gaps) without(from, to float64) (out gaps) {
	from, to = min(from, to), max(from, to)
	for _, g := range free {
		if before := (gap{g.from, min(g.to, from)}); before.from < before.to {
			out = append(out, before)
		}
		if after := (gap{max(g.from, to), g.to}); after.from < after.to {
			out = append(out, after)
		}
	}
	return out
}

// widest is the widest gap, an empty one where nothing is free.
func (free gaps) widest() (best gap) {
	for _, g := range free {
		if g.to-g.from > best.to-best.from {
			best = g
		}
	}
	return best
}
