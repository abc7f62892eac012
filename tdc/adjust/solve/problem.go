// Package solve states one cylinder's readings and pairs of angles as one problem of least
// squares, with what was known before about gauge scale, lash, offset and wheel as further
// observations, and solves it: the curve, the readings' scatter and what of it the
// instruments do not explain, and how any estimate answers to all that was read and known.
package solve

import (
	"math"
	"slices"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/look"
)

// Solved is the curve fit of one cylinder's readings: all of the evidence and all of what
// was known before, in one problem, and its solution.
type Solved struct {
	Setup    evidence.Setup
	Crank    geometry.SliderCrank
	Read     []evidence.Reading
	Pairs    []curve.Midpoint
	Centre   float64     // radians: crank angles count from here
	Angle    []float64   // of the readings, and nought for each pair
	Depth    []float64   // of the readings, and each pair's midpoint
	SigmaX   []float64   // radians, standard
	SigmaY   []float64   // mm, standard; of the pairs radians
	Priors   []fit.Prior // of the parameters, by their place in curve's beta
	Model    curve.Model
	Lines    Lines // of the protractor, that it was read at
	Solver   *fit.Solver
	Scatter  float64 // of the readings, in their stated uncertainties, at least 1
	Best     fit.Solution
	Cov      [][]float64 // of the parameters; nil where they are not fixed
	Weight   []float64   // what the loss left of each reading
	Suspect  []bool      // that lie too far off to be of the same curve
	Widening Widening
}

// mostSteps bounds the search by its work: readings of a piston take a dozen steps,
// and thousands that are no piston's need not be searched for long.
func mostSteps(readings int) int { return 50 + 20_000/(40+readings) }

// Readings adjusts readings and pairs from a first look at them. An error is of figures that
// state no problem; a solution that did not settle is none.
func Readings(setup evidence.Setup, crank geometry.SliderCrank, assumed evidence.Assumed, read []evidence.Reading, pairs []curve.Midpoint, first look.Rough) (*Solved, error) {
	a := &Solved{
		Setup: setup, Crank: crank, Read: read, Pairs: pairs, Centre: first.TDC,
		Model: curve.Model{Crank: crank, Hang: curve.NewHang(setup.Gauge), Pairs: pairs},
		Lines: newLines(setup.Protractor, read, pairs),
	}
	for _, r := range read {
		a.Angle = append(a.Angle, float64((r.Angle - geometry.Angle(a.Centre)).Signed()))
		a.Depth = append(a.Depth, float64(r.Depth))
		a.SigmaX = append(a.SigmaX, float64(setup.Protractor.Uncertainty()))
		a.SigmaY = append(a.SigmaY, float64(setup.Gauge.Uncertainty()))
		a.Model.Turn = append(a.Model.Turn, float64(r.Turn))
	}
	for _, m := range pairs {
		a.Angle, a.SigmaX = append(a.Angle, 0), append(a.SigmaX, 0)
		a.Depth = append(a.Depth, float64((m.Angle - geometry.Angle(a.Centre)).Signed()))
		a.SigmaY = append(a.SigmaY, m.Sigma)
	}
	a.Priors = Priors(setup, crank, assumed)
	a.holdUnseen()
	var err error
	a.Solver, err = fit.NewSolver(fit.Problem{
		Model: &a.Model, X: a.Angle, Y: a.Depth, SigmaX: a.SigmaX, SigmaY: a.SigmaY, Priors: a.Priors, MaxSteps: mostSteps(len(read)),
	})
	if err != nil {
		return nil, err
	}
	first.TDC = 0
	a.solve(a.start(first))
	return a, nil
}

// Priors is what is known before any reading, as observations.
func Priors(setup evidence.Setup, crank geometry.SliderCrank, assumed evidence.Assumed) []fit.Prior {
	bound := func(mean, halfWidth float64) fit.Prior {
		return fit.Prior{Mean: mean, Sigma: halfWidth / math.Sqrt(3)}
	}
	// anywhere on a disc: either component has a quarter of the bound's square
	wheel := fit.Prior{Sigma: setup.Protractor.OffCentreBound() / 2}
	return []fit.Prior{
		curve.TDC:    fit.Free(),
		curve.Zero:   fit.Free(),
		curve.Scale:  {Mean: 1, Sigma: scaleUncertainty(setup, crank, assumed)},
		curve.Lash:   bound(float64(setup.Gauge.Lash), float64(setup.Gauge.LashKnownTo)),
		curve.Offset: bound(float64(crank.Offset()), float64(setup.Engine.KnownTo.Offset)),
		curve.WheelP: wheel,
		curve.WheelQ: wheel,
		curve.Eye:    bound(0, curve.EyeLagBound),
		curve.Step:   fit.Held(0),
	}
}

// holdUnseen holds what nothing here can tell and nothing depends on: zero and
// scale without a depth, the eye's lag without a dwell.
func (a *Solved) holdUnseen() {
	if len(a.Read) == 0 {
		a.Priors[curve.Zero], a.Priors[curve.Scale] = fit.Held(0), fit.Held(1)
	}
	if !slices.ContainsFunc(a.Pairs, func(m curve.Midpoint) bool { return m.ByEye != 0 }) {
		a.Priors[curve.Eye] = fit.Held(0)
	}
}

// scaleUncertainty is how far the curve's scale may be from 1: the gauge's own,
// and the doubt in stroke and rod, of which the curve near TDC shows only
// r (1 + r/l). An unknown stroke leaves the scale free.
func scaleUncertainty(setup evidence.Setup, crank geometry.SliderCrank, assumed evidence.Assumed) float64 {
	if assumed.Stroke > 0 {
		return math.Inf(1)
	}
	r, l := float64(crank.Throw()), float64(crank.Rod())
	rod := setup.Engine.KnownTo.Rod
	if assumed.Rod > 0 {
		rod = assumed.RodKnownTo
	}
	byStroke := (1 + 2*r/l) / (r * (1 + r/l)) * float64(setup.Engine.KnownTo.Stroke) / 2
	byRod := r / l / (1 + r/l) * float64(rod) / l
	square := setup.Gauge.ScaleKnownTo*setup.Gauge.ScaleKnownTo + byStroke*byStroke + byRod*byRod
	return math.Sqrt(square / 3)
}

// start is where the adjustment starts from a rough curve.
func (a *Solved) start(first look.Rough) []float64 {
	beta := make([]float64, curve.Count)
	for j, prior := range a.Priors {
		beta[j] = prior.Mean
	}
	beta[curve.TDC], beta[curve.Zero], beta[curve.Scale] = first.TDC, first.Zero, first.Scale
	return beta
}
