package tdc

import (
	"math"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/halve"
	"evendrop/tdc/look"
)

// result puts the adjustment, equal drop beside it, and what to be wary of
// together.
func (a *adjustment) result(number int, turned bool) Result {
	own := a.ownParts()
	r := Result{
		Number:     number,
		TDC:        a.estimate(a.centre+a.best.Beta[parTDC], a.spread(own)),
		CrownDepth: a.told(parZero),
		Lash:       a.told(parLash),
		Scale:      a.told(parScale),
		Budget:     a.budget(own),
		Assumed:    a.assumed,
		fit:        a,
	}
	r.CrownDepth.Value = float64(a.setup.Gauge.Falling(geometry.Length(r.CrownDepth.Value)))
	curve := a.depthsOnCurve()
	for i, reading := range a.read {
		e := geometry.Length(a.depth[i] - curve[i])
		if turned { // shown as it was typed
			reading.Depth = -reading.Depth
		}
		r.Readings = append(r.Readings, Judged{reading, e, a.weight[i], a.suspect[i]})
	}
	var f halve.Flanks
	if len(a.read) > 0 {
		f = a.flanks()
		r.addEqualDrop(f)
		r.Methods = append(r.Methods, Method{CurveFit, r.TDC, len(a.read)})
	}
	r.addPairs()
	r.WithAll = a.withAll()
	r.CannotTell = a.cannotTell(r.TDC.Expanded)
	r.Findings = a.weakened(r, f, turned)
	return r
}

// depthsOnCurve is what the gauge should have shown at the angles read, mm.
func (a *adjustment) depthsOnCurve() []float64 {
	y, _, _ := a.evaluate(a.best.Beta, a.angle)
	return y
}

// evaluate is the curve with room of its own: depths, slopes, derivatives.
func (a *adjustment) evaluate(beta, angle []float64) (y, slope []float64, jac [][]float64) {
	y, slope, jac = make([]float64, len(angle)), make([]float64, len(angle)), make([][]float64, parCount)
	for j := range jac {
		jac[j] = make([]float64, len(angle))
	}
	a.curve.Evaluate(beta, angle, y, slope, jac)
	return y, slope, jac
}

// estimate is an angle from the protractor's zero with its uncertainty.
func (a *adjustment) estimate(angle float64, s gum.Spread) gum.Estimate {
	return s.Estimate(geometry.Angle(angle).Signed())
}

// measured is one of the adjustment's parameters, widened like TDC.
func (a *adjustment) measured(parameter int) gum.Measured {
	p := a.parts(a.influence(parameter))
	whole, prior := a.cov[parameter][parameter], p.priors()
	variance := prior + sq(a.widening.factor)*math.Max(0, whole-prior)
	return gum.Measured{Value: a.best.Beta[parameter], Uncertainty: math.Sqrt(variance)}
}

// addEqualDrop puts equal drop beside the adjustment, when the flanks overlap in
// depth, and compares the two.
func (r *Result) addEqualDrop(f halve.Flanks) {
	a := r.fit
	equal, ok := f.EqualDrop(a.read, a.angle, a.depth, a.suspect)
	if !ok {
		return
	}
	r.Levels, r.Trend = equal.Levels, equal.Trend
	in := a.throughReadings(influence{angle: equal.Angle, depth: equal.Depth})
	r.Methods = append(r.Methods, Method{EqualDrop, a.estimate(a.centre+equal.TDC, a.spread(a.parts(in))), in.used()})
	difference := a.spread(a.parts(in.add(-1, a.influence(parTDC))))
	r.Agreement = &Agreement{
		Difference: geometry.Angle(equal.TDC - a.best.Beta[parTDC]),
		Limit:      geometry.Angle(difference.Expanded()),
	}
	for i := range r.Levels {
		r.Levels[i].Midpoint = (r.Levels[i].Midpoint + geometry.Angle(a.centre)).Signed()
	}
}

// flanks is the rough curve through the readings that are not suspect, for equal
// drop: drawn anew, with none of what the adjustment knew before.
func (a *adjustment) flanks() halve.Flanks {
	var angle, depth []float64
	for i := range a.read {
		if !a.suspect[i] {
			angle, depth = append(angle, a.angle[i]), append(depth, a.depth[i])
		}
	}
	rough := look.Rough{Zero: a.best.Beta[parZero], Scale: a.best.Beta[parScale], TDC: a.best.Beta[parTDC]}
	return halve.Flanks{Crank: a.crank, Setup: a.setup, Rough: polished(rough, a.crank, angle, depth)}
}

// withAll is TDC by plain least squares, every reading trusted, when some are
// suspect.
func (a *adjustment) withAll() *gum.Estimate {
	for _, suspect := range a.suspect {
		if suspect {
			b := *a
			start := append([]float64(nil), a.best.Beta...)
			b.solver, _ = fit.NewSolver(a.solver.Problem)
			b.best = b.solver.Solve(start, fit.LeastSquares())
			if b.cov = b.best.Covariance(); b.cov == nil {
				return nil
			}
			b.suspect, b.weight = make([]bool, len(b.depth)), nil
			b.widening = b.birge()
			e := b.estimate(b.centre+b.best.Beta[parTDC], b.spread(b.ownParts()))
			return &e
		}
	}
	return nil
}
