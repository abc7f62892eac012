package solve

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/tdc/adjust/curve"
)

// Influence is how an estimate of TDC answers to all that it was made from, in
// radians per radian, per mm, and per unit of each parameter's true value.
type Influence struct {
	Angle, Depth []float64
	Truth        [curve.Count]float64
}

// NewInfluence is that on an estimate that answers to none of n observations.
func NewInfluence(n int) Influence {
	return Influence{Angle: make([]float64, n), Depth: make([]float64, n)}
}

// Add is the influence on a sum of estimates, the other one times a factor.
func (in Influence) Add(factor float64, other Influence) Influence {
	out := NewInfluence(len(in.Angle))
	for i := range in.Angle {
		out.Angle[i] = in.Angle[i] + factor*other.Angle[i]
		out.Depth[i] = in.Depth[i] + factor*other.Depth[i]
	}
	for j := range in.Truth {
		out.Truth[j] = in.Truth[j] + factor*other.Truth[j]
	}
	return out
}

// Parts is what angles, depths and each prior contribute to an estimate's
// variance, radians squared, before any widening.
type Parts struct {
	Angle, Depth float64 // of the angles their rounding
	Pairs        [curve.Kinds]float64
	Fresh        float64 // of the protractor's error, as if it were another at every reading
	Common       float64 // what is to be added because it is one curve
	Prior        [curve.Count]float64
}

// Read is what all that was read contributes, but for what its errors share.
func (p Parts) Read() float64 {
	sum := p.Angle + p.Depth + p.Fresh
	for _, v := range p.Pairs {
		sum += v
	}
	return sum
}

// Priors is what all priors contribute together.
func (p Parts) Priors() float64 {
	sum := 0.0
	for _, v := range p.Prior {
		sum += v
	}
	return sum
}

// Parts is an influence's, with every reading as sure as its instruments.
func (a *Solved) Parts(in Influence) Parts {
	p := Parts{Fresh: a.fresh(in), Common: a.common(in)}
	for i := range a.Read {
		p.Angle += sq(in.Angle[i]) * (sq(a.SigmaX[i]) - a.Lines.Own)
		p.Depth += sq(in.Depth[i] * a.SigmaY[i])
	}
	for k, m := range a.Pairs {
		i := len(a.Read) + k
		p.Pairs[m.Kind] += sq(in.Depth[i]) * (sq(a.SigmaY[i]) - a.Lines.Own/2)
	}
	for j, prior := range a.Priors {
		if in.Truth[j] != 0 && !math.IsInf(prior.Sigma, 1) {
			p.Prior[j] = sq(in.Truth[j] * prior.Sigma)
		}
	}
	return p
}

// OwnParts is the adjustment's, on TDC: its covariance, in which a reading that
// the loss holds back counts as less sure, shared among angles, depths and pairs
// as their parts stand.
func (a *Solved) OwnParts() Parts {
	p := a.Parts(a.Influence(curve.TDC))
	left := a.Cov[curve.TDC][curve.TDC] - p.Priors()
	if whole := p.Read(); whole > 0 {
		p.Angle, p.Depth, p.Fresh = left*p.Angle/whole, left*p.Depth/whole, left*p.Fresh/whole
		for k := range p.Pairs {
			p.Pairs[k] *= left / whole
		}
	}
	return p
}

// ThroughReadings completes the influence of an estimate made from the readings
// alone: a parameter's true value works on it through every reading's depth.
func (a *Solved) ThroughReadings(in Influence) Influence {
	_, _, jac := a.Evaluate(a.Best.Beta, a.Best.T)
	for j := curve.Scale; j < curve.Count; j++ {
		for i := range in.Depth {
			in.Truth[j] += in.Depth[i] * jac[j][i]
		}
	}
	return in
}

// Influence is the adjustment's own, on one of its parameters. The truth
// departing from a prior's mean is the mean departing the other way.
func (a *Solved) Influence(parameter int) Influence {
	gains := a.Best.Gains(parameter, a.Cov)
	in := Influence{Angle: gains.X, Depth: gains.Y}
	for j, g := range gains.Prior {
		in.Truth[j] = -g
	}
	return in
}

// Spread is the parts by shape, widened where the readings scatter by more than
// the instruments explain.
func (a *Solved) Spread(p Parts) gum.Spread {
	s := gum.Spread{Normal: a.shared(p.Read(), p.Common)}
	for _, v := range p.Prior {
		if v > 0 {
			s.Rectangular = append(s.Rectangular, math.Sqrt(v))
		}
	}
	return s
}

// shared is two parts of a variance as components: what scatters, widened where the
// readings scatter by more than the instruments explain, and what errors that readings
// share add to it, or take back.
func (a *Solved) shared(scatter, common float64) []gum.Component {
	scatter *= sq(a.Widening.Factor)
	if common <= 0 {
		return []gum.Component{{Standard: math.Sqrt(math.Max(0, scatter+common)), Degrees: a.Widening.Degrees}}
	}
	return []gum.Component{{Standard: math.Sqrt(scatter), Degrees: a.Widening.Degrees}, {Standard: math.Sqrt(common), Degrees: math.Inf(1)}}
}

// Used is how many readings have a part in the estimate.
func (in Influence) Used() int {
	n := 0
	for i := range in.Angle {
		if in.Angle[i] != 0 || in.Depth[i] != 0 {
			n++
		}
	}
	return n
}
