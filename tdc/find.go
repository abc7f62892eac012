package tdc

import (
	"errors"
	"fmt"
	"math"

	"evendrop/fit"
	"evendrop/geometry"
)

// Find tells where one cylinder's piston is highest. Readings that cannot say,
// too few of them or taken about bottom dead centre, are an error that says
// what to do; what only weakens the answer is in its warnings.
func Find(setup Setup, cylinder Cylinder) (Result, error) {
	crank, assumed, err := withAssumed(setup.Engine)
	if err != nil {
		return Result{}, fmt.Errorf("engine: %w", err)
	}
	read, pairs := cylinder.Readings, midpoints(setup, crank, cylinder)
	var few []Reading // too few to tell anything beside the pairs
	if len(read) < fewestReadings && len(pairs) > 0 {
		few, read = read, nil
	}
	first, err := begin(crank, assumed, read, pairs)
	if err != nil {
		return Result{}, err
	}
	if first.turned {
		setup.Gauge, read = countedTheOtherWay(setup.Gauge, read)
	}
	a, err := adjust(setup, crank, assumed, read, pairs, first.firstLook)
	if err != nil {
		return Result{}, err
	}
	if a.cov == nil || a.best.Status == fit.Undetermined {
		return Result{}, errors.New("the readings do not fix TDC: take some on the other side of it, at other depths")
	}
	if first.maybeBottom && a.unlikelyTop() {
		return Result{}, errBottom
	}
	if err := a.rival(); err != nil {
		return Result{}, err
	}
	result := a.result(cylinder.Number, first.turned)
	if first.turned { // as they were typed
		for i, r := range read {
			result.Readings[i].Depth = -r.Depth
		}
	}
	if first.maybeBottom {
		result.Warnings = append(result.Warnings, "These readings are too coarse to tell TDC from BDC by their shape: "+
			"make sure that the piston was at the top of its stroke.")
	}
	if len(few) > 0 {
		result.Warnings = append(result.Warnings, fmt.Sprintf("%s beside the pairs tell nothing more: not used. Take at least %d, or none.",
			plural(len(few), "reading"), fewestReadings))
	}
	return result, nil
}

// fewestReadings is how many readings can tell TDC, with nothing left over to show
// a bad one.
const fewestReadings = 3

// begin is where to begin: a rough curve through the readings, or without them the
// first pair's midpoint.
func begin(crank geometry.SliderCrank, assumed Assumed, read []Reading, pairs []midpoint) (opening, error) {
	if len(read) == 0 && len(pairs) > 0 {
		return opening{firstLook: firstLook{tdc: float64(pairs[0].angle), scale: 1}}, nil
	}
	if len(read) < fewestReadings {
		return opening{}, fmt.Errorf("%d readings cannot tell TDC: take at least %d, better 12, on both sides of it", len(read), fewestReadings)
	}
	return open(crank, assumed, read)
}

// countedTheOtherWay is the gauge and the readings with depths turned round.
func countedTheOtherWay(gauge Gauge, read []Reading) (Gauge, []Reading) {
	gauge.Counts = Up - gauge.Counts
	turned := make([]Reading, len(read))
	for i, r := range read {
		r.Depth = -r.Depth
		turned[i] = r
	}
	return gauge, turned
}

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
		r.Readings = append(r.Readings, Judged{reading, e, a.weight[i], a.suspect[i]})
	}
	var f flanks
	if len(a.read) > 0 {
		f = a.flanks()
		r.addEqualDrop(f)
		r.Methods = append(r.Methods, Method{CurveFit, r.TDC, len(a.read)})
	}
	r.addPairs()
	r.WithAll = a.withAll()
	r.Warnings = a.warnings(r, f, turned)
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
func (a *adjustment) estimate(angle float64, s Spread) Estimate {
	return s.Estimate(geometry.Angle(angle).Signed())
}

// measured is one of the adjustment's parameters, widened like TDC.
func (a *adjustment) measured(parameter int) Measured {
	p := a.parts(a.influence(parameter))
	whole, prior := a.cov[parameter][parameter], p.priors()
	variance := prior + sq(a.widening.factor)*math.Max(0, whole-prior)
	return Measured{a.best.Beta[parameter], math.Sqrt(variance)}
}

// addEqualDrop puts equal drop beside the adjustment, when the flanks overlap in
// depth, and compares the two.
func (r *Result) addEqualDrop(f flanks) {
	a := r.fit
	r.Levels = f.levels(a.read, a.angle, a.depth, a.suspect)
	if len(r.Levels) == 0 {
		return
	}
	r.Trend = f.trend(r.Levels)
	middle, part := average(r.Levels)
	in := a.throughReadings(f.influence(r.Levels, part, len(a.depth)))
	r.Methods = append(r.Methods, Method{EqualDrop, a.estimate(a.centre+middle, a.spread(a.parts(in))), in.used()})
	difference := a.spread(a.parts(in.add(-1, a.influence(parTDC))))
	r.Agreement = &Agreement{
		Difference: geometry.Angle(middle - a.best.Beta[parTDC]),
		Limit:      geometry.Angle(difference.Expanded()),
	}
	for i := range r.Levels {
		r.Levels[i].Midpoint = (r.Levels[i].Midpoint + geometry.Angle(a.centre)).Signed()
	}
}

// flanks is the rough curve through the readings that are not suspect, for equal
// drop: drawn anew, with none of what the adjustment knew before.
func (a *adjustment) flanks() flanks {
	var angle, depth []float64
	for i := range a.read {
		if !a.suspect[i] {
			angle, depth = append(angle, a.angle[i]), append(depth, a.depth[i])
		}
	}
	rough := firstLook{zero: a.best.Beta[parZero], scale: a.best.Beta[parScale], tdc: a.best.Beta[parTDC]}
	return flanks{crank: a.crank, setup: a.setup, rough: rough.polished(a.crank, angle, depth)}
}

// withAll is TDC by plain least squares, every reading trusted, when some are
// suspect.
func (a *adjustment) withAll() *Estimate {
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
