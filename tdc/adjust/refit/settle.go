package refit

import (
	"math"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
)

// fallBack is a refit that fits so badly that the loss let go of all that fixed it: what
// it costs, and the rest by a loss as wide as the adjustment's scatter.
func (r *Solver) fallBack(s *fit.Solver, cost float64) Refit {
	copy(r.start, r.a.Best.Beta)
	out := r.judged(s, s.Solve(r.start, fit.Redescending(math.Max(r.scale, r.a.Scatter))))
	out.Cost = cost
	return out
}

// rough moves r.start to where a loss whose minimum does not depend on it ends.
func (r *Solver) rough(s *fit.Solver) {
	s.Tolerance, s.MaxSteps = roughTolerance, mostRoughSteps
	copy(r.start, s.Solve(r.start, fit.Huber(r.scale)).Beta)
	s.Tolerance, s.MaxSteps = refitTolerance, mostRefitSteps
}

// settle solves from r.start by the loss that lets bad readings go. Where the lash may be
// anything, so may be how far the piston hangs: that is taken about the lash found, and
// solved again.
func (r *Solver) settle(s *fit.Solver, as Assumption) fit.Solution {
	found := s.Solve(r.start, fit.Redescending(r.scale))
	if as.Lash == 0 {
		return found
	}
	for range hangRounds {
		copy(r.start, found.Beta)
		if found.Status == fit.OutOfSteps || r.curve.Hang.About(r.start[curve.Lash]) {
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
func (r *Solver) lashFrom(as Assumption) {
	switch {
	case as.LashFrom > 0:
		r.start[curve.Lash] = as.LashFrom
		r.hangAbout(as.LashFrom, r.start[curve.TDC])
	default:
		r.curve.Hang = r.a.Model.Hang
		copy(r.sigmaY, r.a.SigmaY)
	}
}

// hangAbout takes the piston to hang in a lash known as far as joints take up at once.
func (r *Solver) hangAbout(lash, tdc float64) {
	r.curve.Hang = curve.HangAbout(lash)
	for i := range r.a.Read {
		u := r.a.Angle[i] - tdc
		drop := float64(r.a.Crank.Drop(geometry.Angle(u)))
		r.sigmaY[i] = math.Hypot(float64(r.a.Setup.Gauge.Uncertainty()), r.curve.Hang.Uncertainty(drop, u*r.curve.Turn[i] > 0))
	}
}

// Refitted is the whole adjustment under an assumption that was solved before: every
// reading and pair as it would have been read since something moved; false where it does
// not fix TDC.
func (r *Solver) Refitted(as Assumption, found Refit) (*solve.Solved, bool) {
	b := *r.a
	b.Priors = append([]fit.Prior(nil), b.Priors...)
	p := r.priors(as)
	copy(b.Priors, p[:])
	if as.Part != curve.NoPart {
		b.Priors[curve.Step] = fit.Free()
	}
	b.Model.Hang = found.hang
	b.Model.Moved = as.moved()
	b.Model.Turn = append([]float64(nil), b.Model.Turn...)
	for i := as.From; i < as.To; i++ {
		b.Model.Turn[i] = -b.Model.Turn[i]
	}
	problem := b.Solver.Problem
	problem.Model, problem.Priors, problem.SigmaY = &b.Model, b.Priors, append([]float64(nil), b.SigmaY...)
	b.SigmaY = problem.SigmaY
	b.Solver, _ = fit.NewSolver(problem)
	b.Scatter = math.Max(r.scale, found.Widened)
	b.Settle(append([]float64(nil), found.beta[:]...))
	if !b.Determined() {
		return nil, false
	}
	b.Judge()
	return &b, true
}
