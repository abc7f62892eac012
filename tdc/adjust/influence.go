package adjust

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/tdc/adjust/curve"
)

// influence is how an estimate of TDC answers to all that it was made from, in
// radians per radian, per mm, and per unit of each parameter's true value.
type influence struct {
	angle, depth []float64
	truth        [curve.Count]float64
}

func newInfluence(n int) influence {
	return influence{angle: make([]float64, n), depth: make([]float64, n)}
}

// add is the influence on a sum of estimates, the other one times a factor.
func (in influence) add(factor float64, other influence) influence {
	out := newInfluence(len(in.angle))
	for i := range in.angle {
		out.angle[i] = in.angle[i] + factor*other.angle[i]
		out.depth[i] = in.depth[i] + factor*other.depth[i]
	}
	for j := range in.truth {
		out.truth[j] = in.truth[j] + factor*other.truth[j]
	}
	return out
}

// parts is what angles, depths and each prior contribute to an estimate's
// variance, radians squared, before any widening.
type parts struct {
	angle, depth float64 // of the angles their rounding
	pairs        [curve.Kinds]float64
	fresh        float64 // of the protractor's error, as if it were another at every reading
	common       float64 // what is to be added because it is one curve
	prior        [curve.Count]float64
}

// read is what all that was read contributes, but for what its errors share.
func (p parts) read() float64 {
	sum := p.angle + p.depth + p.fresh
	for _, v := range p.pairs {
		sum += v
	}
	return sum
}

// priors is what all priors contribute together.
func (p parts) priors() float64 {
	sum := 0.0
	for _, v := range p.prior {
		sum += v
	}
	return sum
}

// parts is an influence's, with every reading as sure as its instruments.
func (a *Adjustment) parts(in influence) parts {
	p := parts{fresh: a.fresh(in), common: a.common(in)}
	for i := range a.read {
		p.angle += sq(in.angle[i]) * (sq(a.sigmaX[i]) - a.scale.own)
		p.depth += sq(in.depth[i] * a.sigmaY[i])
	}
	for k, m := range a.pairs {
		i := len(a.read) + k
		p.pairs[m.Kind] += sq(in.depth[i]) * (sq(a.sigmaY[i]) - a.scale.own/2)
	}
	for j, prior := range a.priors {
		if in.truth[j] != 0 && !math.IsInf(prior.Sigma, 1) {
			p.prior[j] = sq(in.truth[j] * prior.Sigma)
		}
	}
	return p
}

// ownParts is the adjustment's, on TDC: its covariance, in which a reading that
// the loss holds back counts as less sure, shared among angles, depths and pairs
// as their parts stand.
func (a *Adjustment) ownParts() parts {
	p := a.parts(a.influence(curve.TDC))
	left := a.cov[curve.TDC][curve.TDC] - p.priors()
	if whole := p.read(); whole > 0 {
		p.angle, p.depth, p.fresh = left*p.angle/whole, left*p.depth/whole, left*p.fresh/whole
		for k := range p.pairs {
			p.pairs[k] *= left / whole
		}
	}
	return p
}

// throughReadings completes the influence of an estimate made from the readings
// alone: a parameter's true value works on it through every reading's depth.
func (a *Adjustment) throughReadings(in influence) influence {
	_, _, jac := a.evaluate(a.best.Beta, a.best.T)
	for j := curve.Scale; j < curve.Count; j++ {
		for i := range in.depth {
			in.truth[j] += in.depth[i] * jac[j][i]
		}
	}
	return in
}

// influence is the adjustment's own, on one of its parameters. The truth
// departing from a prior's mean is the mean departing the other way.
func (a *Adjustment) influence(parameter int) influence {
	gains := a.best.Gains(parameter, a.cov)
	in := influence{angle: gains.X, depth: gains.Y}
	for j, g := range gains.Prior {
		in.truth[j] = -g
	}
	return in
}

// spread is the parts by shape, widened where the readings scatter by more than
// the instruments explain.
func (a *Adjustment) spread(p parts) gum.Spread {
	s := gum.Spread{Normal: a.shared(p.read(), p.common)}
	for _, v := range p.prior {
		if v > 0 {
			s.Rectangular = append(s.Rectangular, math.Sqrt(v))
		}
	}
	return s
}

// shared is two parts of a variance as components: what scatters, widened where the
// readings scatter by more than the instruments explain, and what errors that readings
// share add to it, or take back.
func (a *Adjustment) shared(scatter, common float64) []gum.Component {
	scatter *= sq(a.widening.factor)
	if common <= 0 {
		return []gum.Component{{Standard: math.Sqrt(math.Max(0, scatter+common)), Degrees: a.widening.degrees}}
	}
	return []gum.Component{{Standard: math.Sqrt(scatter), Degrees: a.widening.degrees}, {Standard: math.Sqrt(common), Degrees: math.Inf(1)}}
}

func sq(x float64) float64 { return x * x }

// used is how many readings have a part in the estimate.
func (in influence) used() int {
	n := 0
	for i := range in.angle {
		if in.angle[i] != 0 || in.depth[i] != 0 {
			n++
		}
	}
	return n
}
