package tdc

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/halve"
)

// assembled puts the adjustment and equal drop and the pairs beside it together. Depths
// of a gauge that counts the other way than stated were turned round. Equal drop cannot
// allow for something that moved.
func assembled(setup evidence.Setup, number int, a *adjust.Adjustment, turned, moved bool) Result {
	r := Result{
		Number: number, TDC: a.Averaged(), AgreeTo: a.AgreeTo(), CrownDepth: a.Zero(), Lash: a.Lash(), Scale: a.Scale(), Budget: a.Budget(),
		Readings: a.Readings(), Dwell: a.Dwell(), WithAll: a.WithAll(), setup: setup, fit: a,
	}
	r.CrownDepth.Value = float64(setup.Gauge.Falling(geometry.Length(r.CrownDepth.Value)))
	for i := range r.Readings {
		if turned { // shown as it was typed
			r.Readings[i].Depth = -r.Readings[i].Depth
		}
	}
	if len(r.Readings) > 0 {
		flanks := a.Flanks()
		if !moved {
			r.addEqualDrop(flanks)
		}
		r.cover = a.Cover(flanks)
		r.Methods = append(r.Methods, Method{CurveFit, a.TDC(), len(r.Readings)})
	}
	r.addPairs()
	return r
}

// addEqualDrop puts equal drop beside the adjustment, when the flanks overlap in
// depth, and compares the two.
func (r *Result) addEqualDrop(flanks halve.Flanks) {
	equal, beside, ok := r.fit.EqualDrop(flanks)
	if !ok {
		return
	}
	r.Levels, r.Trend = equal.Levels, equal.Trend
	r.Methods = append(r.Methods, Method{EqualDrop, beside.Estimate, beside.Readings})
	r.Agreement = &Agreement{Difference: beside.Difference, Limit: beside.Limit}
}

// addPairs puts each kind of pair on its own beside the adjustment, and finds which
// disagree with the whole.
func (r *Result) addPairs() {
	for _, b := range r.fit.ByPairs() {
		r.Methods = append(r.Methods, Method{b.Method, b.Estimate, b.Readings})
		const rounding = 1e-9
		if len(r.Methods) > 1 && math.Abs(float64(b.Difference)) > float64(b.Limit)+rounding {
			r.apart = append(r.apart, finding.MethodApart{Method: b.Method, Off: b.Difference, Limit: b.Limit})
		}
	}
}
