package adjust

import (
	"math"
	"slices"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/look"
)

// Adjustment is the curve fit of one cylinder's readings: all of the evidence
// and all of what was known before, in one problem.
type Adjustment struct {
	setup   evidence.Setup
	assumed evidence.Assumed
	crank   geometry.SliderCrank
	read    []evidence.Reading
	pairs   []curve.Midpoint
	centre  float64   // radians: parTDC counts from here
	angle   []float64 // of the readings, and nought for each pair
	depth   []float64 // of the readings, and each pair's midpoint
	sigmaX  []float64
	sigmaY  []float64
	priors  []fit.Prior
	curve   curve.Model
	scale   scale
	solver  *fit.Solver
	scatter float64 // of the readings, in their stated uncertainties, at least 1
	best    fit.Solution
	cov     [][]float64
	weight  []float64 // what the loss left of each reading
	suspect []bool
	shift   float64 // radians: of TDC, for what may have moved
	doubt   float64 // and its standard uncertainty
	widening
}

// mostSteps bounds the search by its work: readings of a piston take a dozen steps,
// and thousands that are no piston's need not be searched for long.
func mostSteps(readings int) int { return 50 + 20_000/(40+readings) }

// Solve adjusts readings and pairs from a first look at them.
func Solve(setup evidence.Setup, crank geometry.SliderCrank, assumed evidence.Assumed, read []evidence.Reading, pairs []curve.Midpoint, first look.Rough) (*Adjustment, error) {
	a := &Adjustment{
		setup: setup, assumed: assumed, crank: crank, read: read, pairs: pairs, centre: first.TDC,
		curve: curve.Model{Crank: crank, Hang: curve.NewHang(setup.Gauge), Pairs: pairs},
		scale: newScale(setup.Protractor, read, pairs),
	}
	for _, r := range read {
		a.angle = append(a.angle, float64((r.Angle - geometry.Angle(a.centre)).Signed()))
		a.depth = append(a.depth, float64(r.Depth))
		a.sigmaX = append(a.sigmaX, float64(setup.Protractor.Uncertainty()))
		a.sigmaY = append(a.sigmaY, float64(setup.Gauge.Uncertainty()))
		a.curve.Turn = append(a.curve.Turn, float64(r.Turn))
	}
	for _, m := range pairs {
		a.angle, a.sigmaX = append(a.angle, 0), append(a.sigmaX, 0)
		a.depth = append(a.depth, float64((m.Angle - geometry.Angle(a.centre)).Signed()))
		a.sigmaY = append(a.sigmaY, m.Sigma)
	}
	a.priors = priors(setup, crank, assumed)
	a.holdUnseen()
	var err error
	a.solver, err = fit.NewSolver(fit.Problem{
		Model: &a.curve, X: a.angle, Y: a.depth, SigmaX: a.sigmaX, SigmaY: a.sigmaY, Priors: a.priors, MaxSteps: mostSteps(len(read)),
	})
	if err != nil {
		return nil, err
	}
	first.TDC = 0
	a.solve(a.start(first))
	return a, nil
}

// priors is what is known before any reading, as observations.
func priors(setup evidence.Setup, crank geometry.SliderCrank, assumed evidence.Assumed) []fit.Prior {
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
func (a *Adjustment) holdUnseen() {
	if len(a.read) == 0 {
		a.priors[curve.Zero], a.priors[curve.Scale] = fit.Held(0), fit.Held(1)
	}
	if !slices.ContainsFunc(a.pairs, func(m curve.Midpoint) bool { return m.ByEye != 0 }) {
		a.priors[curve.Eye] = fit.Held(0)
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
func (a *Adjustment) start(first look.Rough) []float64 {
	beta := make([]float64, curve.Count)
	for j, prior := range a.priors {
		beta[j] = prior.Mean
	}
	beta[curve.TDC], beta[curve.Zero], beta[curve.Scale] = first.TDC, first.Zero, first.Scale
	return beta
}
