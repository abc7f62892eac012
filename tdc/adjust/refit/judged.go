package refit

import (
	"math"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
)

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

// judged is a solution's numbers.
func (r *Solver) judged(s *fit.Solver, found fit.Solution) Refit {
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
	for i := range r.a.Depth {
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
func (r *Solver) turnings(out *Refit, priors []fit.Prior, part curve.Part) {
	out.Step, out.StepSigma = out.beta[curve.Step], math.Sqrt(r.cov[curve.Step][curve.Step])
	out.End = r.turning(priors, out.beta[:], 0)
	out.Before = out.End
	if part == curve.Protractor {
		out.Before = r.turning(priors, out.beta[:], 1)
	}
}

// widened is Birge's factor, stretched as Student's t is where few degrees of freedom tell
// it.
func widened(chiSquare, degrees float64) float64 {
	if degrees < 1 {
		return 1
	}
	w := solve.Birge(chiSquare, degrees)
	return w.Factor * gum.Student95(w.Degrees) / gum.Normal95
}

// turning is TDC less a share of the step.
func (r *Solver) turning(priors []fit.Prior, beta []float64, share float64) Turning {
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
