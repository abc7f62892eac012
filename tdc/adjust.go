package tdc

import (
	"math"
	"slices"

	"evendrop/fit"
	"evendrop/geometry"
)

// adjustment is the curve fit of one cylinder's readings: all of the evidence
// and all of what was known before, in one problem.
type adjustment struct {
	setup   Setup
	assumed Assumed
	crank   geometry.SliderCrank
	read    []Reading
	centre  float64 // radians: parTDC counts from here
	angle   []float64
	depth   []float64
	sigmaX  []float64
	sigmaY  []float64
	priors  []fit.Prior
	curve   *curve
	solver  *fit.Solver
	scatter float64 // of the readings, in their stated uncertainties, at least 1
	best    fit.Solution
	cov     [][]float64
	suspect []bool
	widening
}

// adjust solves for the readings from a first look at them.
func adjust(setup Setup, crank geometry.SliderCrank, assumed Assumed, read []Reading, first firstLook) (*adjustment, error) {
	a := &adjustment{setup: setup, assumed: assumed, crank: crank, read: read, centre: first.tdc, scatter: 1}
	for _, r := range read {
		a.angle = append(a.angle, float64((r.Angle - geometry.Angle(a.centre)).Signed()))
		a.depth = append(a.depth, float64(r.Depth))
		a.sigmaX = append(a.sigmaX, float64(setup.Protractor.Uncertainty()))
	}
	a.sigmaY = make([]float64, len(read))
	a.priors = priors(setup, crank, assumed)
	a.curve = &curve{crank: crank, side: make([]float64, len(read))}
	var err error
	a.solver, err = fit.NewSolver(fit.Problem{
		Model: a.curve, X: a.angle, Y: a.depth, SigmaX: a.sigmaX, SigmaY: a.takeSides(0), Priors: a.priors,
	})
	if err != nil {
		return nil, err
	}
	a.solve(a.start(first))
	return a, nil
}

// priors is what is known before any reading, as observations.
func priors(setup Setup, crank geometry.SliderCrank, assumed Assumed) []fit.Prior {
	bound := func(mean, halfWidth float64) fit.Prior {
		return fit.Prior{Mean: mean, Sigma: halfWidth / math.Sqrt(3)}
	}
	wheel := bound(0, setup.Protractor.offCentreBound())
	return []fit.Prior{
		parTDC:    fit.Free(),
		parZero:   fit.Free(),
		parScale:  {Mean: 1, Sigma: scaleUncertainty(setup, crank, assumed)},
		parLash:   bound(float64(setup.Gauge.Lash), float64(setup.Gauge.LashKnownTo)),
		parOffset: bound(float64(crank.Offset()), float64(setup.Engine.KnownTo.Offset)),
		parWheelP: wheel,
		parWheelQ: wheel,
	}
}

// scaleUncertainty is how far the curve's scale may be from 1: the gauge's own,
// and the doubt in stroke and rod, of which the curve near TDC shows only
// r (1 + r/l). An unknown stroke leaves the scale free.
func scaleUncertainty(setup Setup, crank geometry.SliderCrank, assumed Assumed) float64 {
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

func (a *adjustment) start(first firstLook) []float64 {
	beta := make([]float64, parCount)
	for j, prior := range a.priors {
		beta[j] = prior.Mean
	}
	beta[parZero], beta[parScale] = first.zero, first.scale
	return beta
}

// sideRounds bounds how often the readings are put on their flanks anew.
const sideRounds = 4

// solve finds the best solution: the scatter and a safe start with a loss whose
// minimum is the same from every start, then one that lets bad readings go; and
// the readings put on their flanks again until they stay there.
func (a *adjustment) solve(start []float64) {
	for range sideRounds {
		for range 3 {
			found := a.solver.Solve(start, fit.Huber(a.scatter))
			copy(start, found.Beta)
			a.scatter = robustScatter(found, len(a.read))
		}
		a.best = a.solver.Solve(start, fit.Redescending(a.scatter))
		copy(start, a.best.Beta)
		before := slices.Clone(a.curve.side)
		a.takeSides(start[parTDC])
		if slices.Equal(before, a.curve.side) {
			break
		}
	}
	a.cov = a.best.Covariance()
	a.judge()
}

// judge names the suspect readings, and widens the answer when the others
// scatter by more than the instruments explain.
func (a *adjustment) judge() {
	a.suspect = make([]bool, len(a.read))
	degrees := a.best.DegreesOfFreedom()
	for i := range a.read {
		if a.suspect[i] = math.Abs(a.best.Standardised(i)) > suspectBeyond*a.scatter; a.suspect[i] {
			degrees--
		}
	}
	a.widening = birge(a.best.ChiSquare(func(i int) bool { return !a.suspect[i] }), degrees)
}

// suspectBeyond is how many scatters off a reading is named as suspect: one good
// reading in 16,000 lies as far.
const suspectBeyond = 4

// robustScatter is the readings' scatter in their stated uncertainties by the
// median absolute residual, allowing for the two parameters that the readings
// alone must give; never below 1.
func robustScatter(found fit.Solution, n int) float64 {
	size := make([]float64, n)
	for i := range size {
		size[i] = math.Abs(found.Standardised(i))
	}
	slices.Sort(size)
	median := (size[(n-1)/2] + size[n/2]) / 2
	const toSigma = 1.482602218505602 // of a normal distribution
	return math.Max(1, toSigma*median*math.Sqrt(float64(n)/math.Max(1, float64(n-2))))
}

// takeSides says for every reading whether the piston was rising or falling,
// with TDC at tdc, and fills the depths' uncertainties. Within the lash of TDC
// the piston may hang anywhere in it: there a reading takes no side and its depth
// is as much less sure.
func (a *adjustment) takeSides(tdc float64) []float64 {
	gauge := a.setup.Gauge
	most := float64(gauge.Lash + gauge.LashKnownTo)
	plain := float64(gauge.Uncertainty())
	for i, r := range a.read {
		u := geometry.Angle(a.angle[i] - tdc)
		if float64(a.crank.Drop(u)) < most {
			a.curve.side[i] = 0
			a.sigmaY[i] = math.Hypot(plain, most/2/math.Sqrt(3))
			continue
		}
		a.curve.side[i] = math.Copysign(float64(r.Turn), float64(r.Turn)*float64(u))
		a.sigmaY[i] = plain
	}
	return a.sigmaY
}
