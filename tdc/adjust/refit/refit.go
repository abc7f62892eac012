// Package refit solves an adjustment's readings again under other assumptions: that
// something moved while they were taken, that a run was turned the other way, that the
// engine is worn.
package refit

import (
	"math"
	"slices"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
)

// Assumption is what a refit takes for granted of the session, in place of that
// nothing moved and all is as stated.
type Assumption struct {
	Part        curve.Part // that moved
	After       int        // so many readings
	PairsBefore bool       // it moved after the pairs of angles were taken
	// From and To are the readings whose turn was written the other way than it was, the
	// last one excluded.
	From, To int
	// Lash, Wheel and Scale are standard uncertainties of the lash (mm), of the wheel's
	// centre (of its radius) and of the curve's scale in place of those stated; those that are
	// greater stay.
	Lash, Wheel, Scale float64
	LashFrom           float64 // mm, where the search for the lash starts
}

// moved is what it has moved.
func (as Assumption) moved() curve.Moved {
	return curve.Moved{Part: as.Part, After: as.After, PairsBefore: as.PairsBefore}
}

// Solver solves an adjustment's readings again and again, under other assumptions.
type Solver struct {
	Screens []*Screen // of steps: as the loss weighs the readings, and one that trusts all where that may be wrong
	a       *solve.Solved
	curve   curve.Model
	sigmaX  []float64
	sigmaY  []float64
	solvers map[freed]*fit.Solver
	cov     [][]float64
	start   []float64
	scale   float64
	far     bool // from what the readings say: the first order is no start
	coarse  bool // angles count as read to a coarser step than stated
}

// freed is which parameters a solver has beside the adjustment's own.
type freed struct{ step, lash, wheel bool }

// What is known of a step before any reading: next to nothing. Its size is weighed
// by whoever asks.
const (
	anyAngle = 20 * math.Pi / 180
	anyDepth = 5.0 // mm
)

// New makes room for refits. Angles count as read to a step that may be coarser
// than stated; the loss lets go of readings beyond scale times what the instruments
// explain.
func New(a *solve.Solved, step geometry.Angle, scale float64) *Solver {
	r := &Solver{
		a: a, curve: a.Model, sigmaX: slices.Clone(a.SigmaX), sigmaY: slices.Clone(a.SigmaY), solvers: map[freed]*fit.Solver{},
		cov: curve.Covariance(), start: make([]float64, curve.Count), scale: scale,
	}
	r.curve.Turn = slices.Clone(a.Model.Turn)
	coarse := a.Setup.Protractor
	coarse.Step = max(coarse.Step, step)
	for i := range a.Read {
		r.sigmaX[i] = float64(coarse.Uncertainty())
	}
	r.coarse = coarse.Step > a.Setup.Protractor.Step
	r.look()
	return r
}

// look screens the places of a step as the loss weighs the readings, and where it let
// several go with every one trusted too: it may be for the step that they do not fit.
func (r *Solver) look() {
	gone := 0
	for _, w := range r.a.Weight {
		if w < letGo {
			gone++
		}
	}
	r.far = r.a.Scatter > farScatter || gone >= several
	if s, ok := newScreen(r.a, false); ok {
		r.Screens = append(r.Screens, s)
	}
	if !r.far {
		return
	}
	if s, ok := newScreen(r.a, true); ok {
		r.Screens = append(r.Screens, s)
	}
}

// A reading that has lost half its weight is let go; one may be a typing error.
const letGo, several = 0.5, 2

// refitTolerance is the step, in standard uncertainties, at which a refit is good
// enough: its cost is then right to the square of that.
const refitTolerance = 0.03

// farScatter is the scatter about the adjustment beyond which a refit may end far from it.
const farScatter = 1.5

// roughTolerance is the same for what is only a start.
const roughTolerance = 0.1

// mostRefitSteps bounds a refit: one takes a handful of steps, and one that wanders
// is no hypothesis worth having.
const mostRefitSteps = 40

// mostRoughSteps bounds what is only a start: 99 in 100 of sessions in which something
// slipped have theirs after 19 steps, and readings of no piston never.
const mostRoughSteps = 20

// solver is the one for an assumption, with the curve and the priors set for it.
func (r *Solver) solver(as Assumption) *fit.Solver {
	free := freed{as.Part != curve.NoPart, as.Lash > 0, as.Wheel > 0}
	s := r.solvers[free]
	priors := r.priors(as)
	if s == nil {
		// the problem was good when the adjustment solved it
		s, _ = fit.NewSolver(fit.Problem{
			Model: &r.curve, X: r.a.Angle, Y: r.a.Depth, SigmaX: r.sigmaX, SigmaY: r.sigmaY, Priors: append([]fit.Prior(nil), priors[:]...),
			Tolerance: refitTolerance, MaxSteps: mostRefitSteps,
		})
		r.solvers[free] = s
	}
	copy(s.Priors, priors[:])
	r.curve.Moved = as.moved()
	copy(r.curve.Turn, r.a.Model.Turn)
	for i := as.From; i < as.To; i++ {
		r.curve.Turn[i] = -r.curve.Turn[i]
	}
	return s
}

// priors is the adjustment's, with what the assumption makes wider.
func (r *Solver) priors(as Assumption) (p [curve.Count]fit.Prior) {
	copy(p[:], r.a.Priors)
	switch as.Part {
	case curve.Protractor:
		p[curve.Step].Sigma = anyAngle
	case curve.GaugeZero:
		p[curve.Step].Sigma = anyDepth
	}
	p[curve.Lash].Sigma = math.Max(p[curve.Lash].Sigma, as.Lash)
	if p[curve.Scale].Sigma > 0 {
		p[curve.Scale].Sigma = math.Max(p[curve.Scale].Sigma, as.Scale)
	}
	p[curve.WheelP].Sigma = math.Max(p[curve.WheelP].Sigma, as.Wheel)
	p[curve.WheelQ].Sigma = math.Max(p[curve.WheelQ].Sigma, as.Wheel)
	return p
}

// Solve refits under an assumption. A step starts where the first order puts it; far from
// that, and without a step, a loss whose minimum does not depend on the start comes first.
// Solving allocates nothing after the first of a kind.
func (r *Solver) Solve(as Assumption) (best Refit) {
	s := r.solver(as)
	if as.Part == curve.NoPart {
		return r.solveStill(s, as)
	}
	for _, screen := range r.starts() {
		screen.start(as.Part, as.After, r.start)
		r.lashFrom(as)
		if r.far {
			r.rough(s)
		}
		found := r.settle(s, as)
		if best.Settled && found.Cost >= best.Cost {
			continue
		}
		if other := r.judged(s, found); other.Settled {
			best = other
		}
	}
	return best
}

// starts is the screens that a step is started from: of few readings, one of them mistyped,
// the rough search may end elsewhere from the other; of 24 it does not (simulated).
func (r *Solver) starts() []*Screen {
	if len(r.a.Read) > oneStart {
		return r.Screens[:min(1, len(r.Screens))]
	}
	return r.Screens
}

// oneStart is as many readings as are started from either screen.
const oneStart = 16

// solveStill refits where nothing moved.
func (r *Solver) solveStill(s *fit.Solver, as Assumption) Refit {
	copy(r.start, r.a.Best.Beta)
	r.lashFrom(as)
	r.rough(s)
	found := r.judged(s, r.settle(s, as))
	if !found.Settled {
		found = r.fallBack(s, found.Cost)
	}
	return found
}
