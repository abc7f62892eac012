package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
)

// Dwell is what the dwell pairs say of the eye that saw them.
type Dwell struct {
	Resolved geometry.Length // the drop at which motion was no longer seen
	// Lag is half of what the forward midpoints come after the backward ones; nil
	// when it was turned one way alone.
	Lag *geometry.Angle
}

// ByPairs is each kind of pair on its own, of those that have one.
func (a *Adjustment) ByPairs() (list []Beside) {
	for kind := range curve.Kinds {
		if estimate, in, n := a.byPairs(kind); n > 0 {
			list = append(list, a.beside(kind.String(), estimate, in, n))
		}
	}
	return list
}

// byPairs is TDC by one kind of pair alone: in each direction the weighted mean of
// the midpoints less what the stated lash, offset and wheel make of them, and the
// plain mean of the directions, in which lash and the eye's lag cancel. It tells
// how many pairs have a part.
func (a *Adjustment) byPairs(kind curve.Kind) (estimate float64, in solve.Influence, n int) {
	before := make([]float64, curve.Count)
	for j, prior := range a.Priors {
		before[j] = prior.Mean
	}
	crank := a.Crank.WithOffset(geometry.Length(before[curve.Offset]))
	in = solve.NewInfluence(len(a.Depth))
	var weight [3]float64
	each := func(do func(i int, m curve.Midpoint)) {
		for k, m := range a.Pairs {
			if i := len(a.Read) + k; m.Kind == kind && !a.Suspect[i] {
				do(i, m)
			}
		}
	}
	each(func(_ int, m curve.Midpoint) {
		weight[m.Turn+1] += 1 / sq(m.Sigma)
		n += m.Count
	})
	directions := 0.0
	for _, w := range weight {
		if w > 0 {
			directions++
		}
	}
	each(func(i int, m curve.Midpoint) {
		off, _, _ := m.Expected(crank, before)
		in.Depth[i] = 1 / sq(m.Sigma) / weight[m.Turn+1] / directions
		estimate += in.Depth[i] * (a.Depth[i] - off)
	})
	return estimate, a.ThroughReadings(in), n
}

// Dwell is the drop that the eye resolved: that of half the mean dwell, less half
// the lash that the falling side had to take up first. Nil without a dwell pair that
// fits.
func (a *Adjustment) Dwell() *Dwell {
	var half, forward, backward, n, f, b float64
	for k, m := range a.Pairs {
		if m.Kind != curve.DwellPair || a.Suspect[len(a.Read)+k] {
			continue
		}
		half, n = half+m.Half, n+1
		if middle := a.Depth[len(a.Read)+k]; m.Turn == evidence.Forward {
			forward, f = forward+middle, f+1
		} else {
			backward, b = backward+middle, b+1
		}
	}
	if n == 0 {
		return nil
	}
	drop := a.Crank.Drop(geometry.Angle(half / n))
	d := Dwell{Resolved: max(drop/2, drop-geometry.Length(a.Best.Beta[curve.Lash]/2))}
	if f > 0 && b > 0 {
		lag := geometry.Angle((forward/f - backward/b) / 2)
		d.Lag = &lag
	}
	return &d
}

// told is one of the adjustment's parameters where something here tells it, and
// not a number where nothing does.
func (a *Adjustment) told(parameter int) gum.Measured {
	if a.Priors[parameter].Sigma == 0 || a.silent(parameter) {
		return gum.Measured{Value: math.NaN(), Uncertainty: math.NaN()}
	}
	return a.measured(parameter)
}

// silent tells whether nothing that was read depends on a parameter.
func (a *Adjustment) silent(parameter int) bool {
	if len(a.Read) > 0 {
		return false
	}
	for _, m := range a.Pairs {
		if parameter == curve.Lash && m.ByLash != 0 {
			return false
		}
	}
	return parameter == curve.Lash
}
