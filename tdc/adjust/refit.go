package adjust

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
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

// Refit is where a refit ended, in radians and mm.
type Refit struct {
	Settled   bool
	Cost      float64 // the loss over all that was read, and the priors'
	LnSigma   float64 // logarithm of the product of the readings' standard uncertainties
	LnRoom    float64 // logarithm of the parameters' room after the readings over that before them, the step's before apart
	ChiSquare float64 // of what the loss did not let go
	Degrees   float64 // of freedom that it has
	Widened   float64 // how much wider than the instruments say the readings' part is, by what they scatter
	End       Turning // TDC as the protractor shows it since something moved
	Before    Turning // and before
	Step      float64 // by how much more it reads since
	StepSigma float64 // its standard uncertainty by the readings
	FoundLash float64 // mm
	hang      curve.Hang
	beta      [curve.Count]float64
}

// Turning is TDC by one refit, radians from the adjustment's centre, and the parts of
// its uncertainty: what the readings leave, the greatest of the stated ranges, and the
// other ranges, each a standard uncertainty.
type Turning struct{ At, Read, Range, Ranges float64 }

// Refits solves an adjustment's readings again and again, under other assumptions.
type Refits struct {
	Screens []*Screen // of steps: as the loss weighs the readings, and one that trusts all where that may be wrong
	a       *Adjustment
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

// NewRefits makes room for refits. Angles count as read to a step that may be coarser
// than stated; the loss lets go of readings beyond scale times what the instruments
// explain.
func (a *Adjustment) NewRefits(step geometry.Angle, scale float64) *Refits {
	r := &Refits{
		a: a, curve: a.curve, sigmaX: slices.Clone(a.sigmaX), sigmaY: slices.Clone(a.sigmaY), solvers: map[freed]*fit.Solver{},
		cov: square(curve.Count), start: make([]float64, curve.Count), scale: scale,
	}
	r.curve.Turn = slices.Clone(a.curve.Turn)
	coarse := a.setup.Protractor
	coarse.Step = max(coarse.Step, step)
	for i := range a.read {
		r.sigmaX[i] = float64(coarse.Uncertainty())
	}
	r.coarse = coarse.Step > a.setup.Protractor.Step
	r.look()
	return r
}

// look screens the places of a step as the loss weighs the readings, and where it let
// several go with every one trusted too: it may be for the step that they do not fit.
func (r *Refits) look() {
	gone := 0
	for _, w := range r.a.weight {
		if w < letGo {
			gone++
		}
	}
	r.far = r.a.scatter > farScatter || gone >= several
	if s, ok := r.a.Screen(false); ok {
		r.Screens = append(r.Screens, s)
	}
	if !r.far {
		return
	}
	if s, ok := r.a.Screen(true); ok {
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

// solver is the one for an assumption, with the curve and the priors set for it.
func (r *Refits) solver(as Assumption) *fit.Solver {
	free := freed{as.Part != curve.NoPart, as.Lash > 0, as.Wheel > 0}
	s := r.solvers[free]
	priors := r.priors(as)
	if s == nil {
		// the problem was good when the adjustment solved it
		s, _ = fit.NewSolver(fit.Problem{
			Model: &r.curve, X: r.a.angle, Y: r.a.depth, SigmaX: r.sigmaX, SigmaY: r.sigmaY, Priors: append([]fit.Prior(nil), priors[:]...),
			Tolerance: refitTolerance, MaxSteps: mostRefitSteps,
		})
		r.solvers[free] = s
	}
	copy(s.Priors, priors[:])
	r.curve.Moved = as.moved()
	copy(r.curve.Turn, r.a.curve.Turn)
	for i := as.From; i < as.To; i++ {
		r.curve.Turn[i] = -r.curve.Turn[i]
	}
	return s
}

// priors is the adjustment's, with what the assumption makes wider.
func (r *Refits) priors(as Assumption) (p [curve.Count]fit.Prior) {
	copy(p[:], r.a.priors)
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

// Solve refits under an assumption. A step starts where each screen puts it; what has
// no step starts with a loss whose minimum does not depend on the start. Solving
// allocates nothing after the first of a kind.
func (r *Refits) Solve(as Assumption) (best Refit) {
	s := r.solver(as)
	if as.Part == curve.NoPart {
		copy(r.start, r.a.best.Beta)
		r.lashFrom(as)
		r.rough(s)
		if best = r.judged(s, r.settle(s, as)); !best.Settled {
			best = r.fallBack(s, best.Cost)
		}
		return best
	}
	for _, screen := range r.Screens {
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

// fallBack is a refit that fits so badly that the loss let go of all that fixed it: what
// it costs, and the rest by a loss as wide as the adjustment's scatter.
func (r *Refits) fallBack(s *fit.Solver, cost float64) Refit {
	copy(r.start, r.a.best.Beta)
	out := r.judged(s, s.Solve(r.start, fit.Redescending(math.Max(r.scale, r.a.scatter))))
	out.Cost = cost
	return out
}

// rough moves r.start to where a loss whose minimum does not depend on it ends.
func (r *Refits) rough(s *fit.Solver) {
	s.Tolerance = roughTolerance
	copy(r.start, s.Solve(r.start, fit.Huber(r.scale)).Beta)
	s.Tolerance = refitTolerance
}

// settle solves from r.start by the loss that lets bad readings go. Where the lash may be
// anything, so may be how far the piston hangs: that is taken about the lash found, and
// solved again.
func (r *Refits) settle(s *fit.Solver, as Assumption) fit.Solution {
	found := s.Solve(r.start, fit.Redescending(r.scale))
	if as.Lash == 0 {
		return found
	}
	for range hangRounds {
		copy(r.start, found.Beta)
		if r.curve.Hang.About(r.start[curve.Lash]) {
			break
		}
		r.hangAbout(r.start[curve.Lash], r.start[curve.TDC])
		found = s.Solve(r.start, fit.Redescending(r.scale))
	}
	return found
}

// hangRounds is how often the hang is taken about the lash that was found with it: it
// changes little after the second.
const hangRounds = 2

// lashFrom puts the search's start, and the hang, where an assumption has the lash.
func (r *Refits) lashFrom(as Assumption) {
	switch {
	case as.LashFrom > 0:
		r.start[curve.Lash] = as.LashFrom
		r.hangAbout(as.LashFrom, r.start[curve.TDC])
	default:
		r.curve.Hang = r.a.curve.Hang
		copy(r.sigmaY, r.a.sigmaY)
	}
}

// hangAbout takes the piston to hang in a lash known as far as joints take up at once.
func (r *Refits) hangAbout(lash, tdc float64) {
	r.curve.Hang = curve.HangAbout(lash)
	for i := range r.a.read {
		u := r.a.angle[i] - tdc
		drop := float64(r.a.crank.Drop(geometry.Angle(u)))
		r.sigmaY[i] = math.Hypot(float64(r.a.setup.Gauge.Uncertainty()), r.curve.Hang.Uncertainty(drop, u*r.curve.Turn[i] > 0))
	}
}

// judged is a solution's numbers.
func (r *Refits) judged(s *fit.Solver, found fit.Solution) Refit {
	out := Refit{Cost: found.Cost}
	for _, row := range r.cov {
		clear(row)
	}
	lnDet, ok := found.CovarianceInto(r.cov)
	if !ok || found.Status == fit.NotANumber {
		return out
	}
	out.Settled, out.FoundLash, out.hang = true, found.Beta[curve.Lash], r.curve.Hang
	copy(out.beta[:], found.Beta)
	out.LnRoom = lnDet / 2
	for i := range r.a.depth {
		w := found.Weight(i)
		e, sigma := found.Residual(i)
		z := e / sigma
		out.LnSigma += math.Log(sigma)
		out.ChiSquare += w * z * z
		out.Degrees += w
	}
	for j, p := range s.Priors {
		if p.Sigma > 0 {
			out.Degrees--
			if !math.IsInf(p.Sigma, 1) {
				out.Degrees += r.cov[j][j] / sq(p.Sigma)
				if j != curve.Step {
					out.LnRoom -= math.Log(p.Sigma)
				}
			}
		}
	}
	out.Widened = widened(out.ChiSquare, out.Degrees)
	r.turnings(&out, s.Priors, r.curve.Moved.Part)
	return out
}

// turnings fills in the step, and TDC at the session's end and before, from r.cov.
func (r *Refits) turnings(out *Refit, priors []fit.Prior, part curve.Part) {
	out.Step, out.StepSigma = out.beta[curve.Step], math.Sqrt(r.cov[curve.Step][curve.Step])
	out.End = r.turning(priors, out.beta[:], 0)
	out.Before = out.End
	if part == curve.Protractor {
		out.Before = r.turning(priors, out.beta[:], 1)
	}
}

// widened is what birge is of a whole adjustment, stretched as Student's t is where few
// degrees of freedom tell it.
func widened(chiSquare, degrees float64) float64 {
	if degrees < 1 || (distuv.ChiSquared{K: degrees}).Survival(chiSquare) >= byChance {
		return 1
	}
	return math.Max(1, math.Sqrt(chiSquare/degrees)) * gum.Student95(degrees) / gum.Normal95
}

// turning is TDC less a share of the step.
func (r *Refits) turning(priors []fit.Prior, beta []float64, share float64) Turning {
	with := func(j int) float64 { return r.cov[curve.TDC][j] - share*r.cov[curve.Step][j] }
	t := Turning{At: beta[curve.TDC] - share*beta[curve.Step], Read: with(curve.TDC) - share*with(curve.Step)}
	ranges := 0.0
	for j, p := range priors {
		if j == curve.Step || !(p.Sigma > 0) || math.IsInf(p.Sigma, 1) {
			continue
		}
		own := sq(with(j) / p.Sigma)
		ranges += own
		t.Range = math.Max(t.Range, own)
	}
	t.Read = math.Sqrt(math.Max(0, t.Read-ranges))
	t.Ranges = math.Sqrt(math.Max(0, ranges-t.Range))
	t.Range = math.Sqrt(t.Range)
	return t
}

// Of is the adjustment whose readings are solved again.
func (r *Refits) Of() *Adjustment { return r.a }

// Refitted is the whole adjustment under an assumption that was solved before: every
// reading and pair as it would have been read since something moved; false where it does
// not fix TDC.
func (r *Refits) Refitted(as Assumption, found Refit) (*Adjustment, bool) {
	b := *r.a
	b.priors = append([]fit.Prior(nil), b.priors...)
	p := r.priors(as)
	copy(b.priors, p[:])
	if as.Part != curve.NoPart {
		b.priors[curve.Step] = fit.Free()
	}
	b.curve.Hang = found.hang
	b.curve.Moved = as.moved()
	b.curve.Turn = append([]float64(nil), b.curve.Turn...)
	for i := as.From; i < as.To; i++ {
		b.curve.Turn[i] = -b.curve.Turn[i]
	}
	problem := b.solver.Problem
	problem.Model, problem.Priors, problem.SigmaY = &b.curve, b.priors, append([]float64(nil), b.sigmaY...)
	b.sigmaY = problem.SigmaY
	b.solver, _ = fit.NewSolver(problem)
	b.scatter = math.Max(r.scale, found.Widened)
	b.settle(append([]float64(nil), found.beta[:]...))
	if !b.Determined() {
		return nil, false
	}
	b.judge()
	return &b, true
}
