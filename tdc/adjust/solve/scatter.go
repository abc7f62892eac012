package solve

import (
	"math"

	"evendrop/fit/gum"

	"gonum.org/v1/gonum/stat/distuv"
)

// Widening is what scatter beyond the instruments does to the part of the
// uncertainty that the readings make.
type Widening struct {
	Factor  float64 // Birge's ratio, or 1
	Degrees float64 // of freedom behind it; +Inf when the instruments explain the scatter
	Told    bool    // something beside chance must be at work
}

// birge is the widening for the scatter of all that was read and is not suspect, by
// Birge's ratio (Birge1932): it never narrows. The priors have no part in it: they are what
// was stated, and readings that scatter do not make them doubtful.
func (a *Solved) birge() Widening {
	chiSquare, degrees := 0.0, 0.0
	for i := range a.Depth {
		if !a.Suspect[i] && a.Cov != nil {
			chiSquare += sq(a.Best.Standardised(i))
			degrees += 1 - a.Best.Leverage(i, a.Cov)
		}
	}
	if degrees < 1 {
		return a.contradicted()
	}
	return Birge(chiSquare, degrees)
}

// Birge is the widening for a chi-square with so many degrees of freedom, at least one.
func Birge(chiSquare, degrees float64) Widening {
	chance := (distuv.ChiSquared{K: degrees}).Survival(chiSquare)
	if chance >= byChance {
		return unwidened
	}
	return Widening{Factor: math.Max(1, math.Sqrt(chiSquare/degrees)), Degrees: degrees, Told: chance < hardlyChance}
}

// What scatter counts for by how likely chance alone makes it. From three in ten on the
// answer widens: a stricter test would leave scatter beyond the instruments unseen, most
// of all where few degrees of freedom make it blunt, and a laxer one would make a clean
// job's interval hold more than it says. It is spoken of below one in a hundred, so that
// few clean jobs hear of it. Both simulated (testdata/honesty).
const (
	byChance     = 0.3
	hardlyChance = 0.01
)

// unwidened is the widening where the instruments explain the scatter: none.
var unwidened = Widening{Factor: 1, Degrees: math.Inf(1)}

// contradicted is the widening where what was read leaves less than a degree of
// freedom over: two stops, of which a wheel off its centre may explain part of what
// lies between. There the priors are held against it too, and only what chance hardly
// makes of both counts.
func (a *Solved) contradicted() Widening {
	fine := 0
	notSuspect := func(i int) bool { return !a.Suspect[i] }
	for i := range a.Suspect {
		if notSuspect(i) {
			fine++
		}
	}
	chiSquare, degrees := a.Best.ChiSquare(notSuspect), float64(a.Best.DegreesOfFreedom()-len(a.Depth)+fine)
	if degrees < 1 || (distuv.ChiSquared{K: degrees}).Survival(chiSquare) >= contradiction {
		return unwidened
	}
	return Widening{Factor: math.Sqrt(chiSquare / degrees), Degrees: math.Inf(1), Told: true}
}

// contradiction is how unlikely it must be that chance alone sets so little apart: a
// good pair of stops seldom seems bad.
const contradiction = 0.001

// robustScatter is the readings' scatter in their stated uncertainties, by the
// median absolute residual of the last solution; never below 1. Few degrees of
// freedom tell it badly, so that good readings would seem bad: it is stretched as
// far as Student's t stretches three standard deviations.
func (a *Solved) robustScatter() float64 {
	n, degrees := float64(len(a.Depth)), 0.0
	size := make([]float64, len(a.Depth))
	for i := range size {
		size[i] = math.Abs(a.Best.Standardised(i))
		if a.Cov != nil {
			degrees += 1 - a.Best.Leverage(i, a.Cov)
		}
	}
	degrees = math.Max(1, degrees)
	const tail = 0.99865010196837 // of the normal distribution, up to three deviations
	stretch := distuv.StudentsT{Sigma: 1, Nu: degrees}.Quantile(tail) / 3
	return math.Max(1, stretch*toSigma*gum.Median(size)*math.Sqrt(n/degrees))
}

// toSigma makes a standard deviation of the median absolute value of a normal
// error: one over the distribution's upper quartile.
const toSigma = 1.482602218505602
