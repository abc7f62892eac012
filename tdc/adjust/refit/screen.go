package refit

import (
	"math"

	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"

	"gonum.org/v1/gonum/mat"
)

// Screen is what a step at each place in the order of the readings would gain, to
// first order about the adjustment: from the readings as the loss weighs them, or
// from all of them alike.
type Screen struct {
	beta    []float64
	inverse [curve.Count][curve.Count]float64 // of the normal equations, noughts for held parameters
	right   [curve.Count]float64
	before  [2][]along // by part, of the readings before each place
}

// along is sums over the readings before a place, of the step's column with the
// others, with itself and with the residuals.
type along struct {
	with        [curve.Count]float64
	own, uphill float64
}

// newScreen looks at every place; trusting takes every reading at its full weight. It
// is false where the readings do not fix the curve.
func newScreen(a *solve.Solved, trusting bool) (s *Screen, ok bool) {
	s = &Screen{beta: a.Best.Beta}
	_, slope, jac := a.Evaluate(a.Best.Beta, a.Best.T)
	n := len(a.Read)
	s.before = [2][]along{make([]along, n+1), make([]along, n+1)}
	var normal [curve.Count][curve.Count]float64
	for i := range a.Depth {
		e, sigma := a.Best.Residual(i)
		weight := 1 / sq(sigma)
		if !trusting {
			weight *= a.Weight[i]
		}
		for j := range normal {
			s.right[j] += weight * jac[j][i] * e
			for k := range j + 1 {
				normal[j][k] += weight * jac[j][i] * jac[k][i]
			}
		}
		if i < n {
			s.before[0][i+1] = s.before[0][i].plus(jac, i, weight, e, slope[i])
			s.before[1][i+1] = s.before[1][i].plus(jac, i, weight, e, -1)
		}
	}
	return s, s.invert(normal, a)
}

// plus is the sums with reading i, whose depth on the curve changes with the step so.
func (s along) plus(jac [][]float64, i int, weight, e, step float64) along {
	for j := range s.with {
		s.with[j] += weight * jac[j][i] * step
	}
	s.own += weight * step * step
	s.uphill += weight * step * e
	return s
}

// invert adds what was known before to the normal equations, and inverts them.
func (s *Screen) invert(normal [curve.Count][curve.Count]float64, a *solve.Solved) bool {
	m := mat.NewSymDense(curve.Count, nil)
	for j, prior := range a.Priors {
		held := prior.Sigma == 0
		for k := range j {
			if !held && a.Priors[k].Sigma > 0 {
				m.SetSym(j, k, normal[j][k])
			}
		}
		if held {
			m.SetSym(j, j, 1)
			s.right[j] = 0
			continue
		}
		m.SetSym(j, j, normal[j][j]+1/sq(prior.Sigma))
		if !math.IsInf(prior.Sigma, 1) {
			s.right[j] += (prior.Mean - s.beta[j]) / sq(prior.Sigma)
		}
	}
	size := make([]float64, curve.Count) // parameters of unlike units lose no digits to one another
	for j := range size {
		size[j] = math.Sqrt(m.At(j, j))
	}
	for j := range size {
		for k := range j + 1 {
			m.SetSym(j, k, m.At(j, k)/size[j]/size[k])
		}
	}
	var factor mat.Cholesky
	var inverse mat.SymDense
	if !factor.Factorize(m) || factor.InverseTo(&inverse) != nil {
		return false
	}
	for j, pj := range a.Priors {
		for k, pk := range a.Priors {
			if pj.Sigma > 0 && pk.Sigma > 0 {
				s.inverse[j][k] = inverse.At(j, k) / size[j] / size[k]
			}
		}
	}
	return true
}

// Gain is how far chi-square would fall with a part moved after so many readings.
func (s *Screen) Gain(part curve.Part, after int) float64 {
	_, step, own := s.step(part, after)
	return step * step * own
}

// step is the step there, to first order, the others' answer to one of 1, and the
// inverse of the step's variance.
func (s *Screen) step(part curve.Part, after int) (answer [curve.Count]float64, step, own float64) {
	b := &s.before[part-1][after]
	own, uphill := b.own, b.uphill
	for j, row := range s.inverse {
		for k, c := range row {
			answer[j] -= c * b.with[k]
		}
		own += answer[j] * b.with[j]
		uphill += answer[j] * s.right[j]
	}
	if !(own > 1e-9*b.own) {
		return answer, 0, 0
	}
	return answer, uphill / own, own
}

// start fills beta with where a refit is to start.
func (s *Screen) start(part curve.Part, after int, beta []float64) {
	answer, step, _ := s.step(part, after)
	copy(beta, s.beta)
	for j, row := range s.inverse {
		for k, c := range row {
			beta[j] += c * s.right[k]
		}
		beta[j] += answer[j] * step
	}
	beta[curve.Step] = step
}

// littleGain is the gain of chi-square below which a step changes so little that the
// first order is as good as a refit.
const littleGain = 1

// FirstOrder is a refit with a step and nothing else, to first order from one with
// nothing; false where that would be too far off.
func (r *Solver) FirstOrder(as Assumption, nothing Refit) (out Refit, ok bool) {
	if len(r.Screens) == 0 || r.far || r.coarse || as != (Assumption{Part: as.Part, After: as.After}) {
		return out, false
	}
	answer, step, own := r.Screens[0].step(as.Part, as.After)
	gain := step * step * own
	if !(own > 0) || gain > littleGain {
		return out, false
	}
	out = nothing
	out.Cost -= gain
	out.ChiSquare = math.Max(0, out.ChiSquare-gain) // the priors have their share of it
	out.Degrees--
	out.Widened = widened(out.ChiSquare, out.Degrees)
	out.LnRoom -= math.Log(own) / 2
	r.spread(&r.Screens[0].inverse, answer, own)
	for j := range out.beta {
		out.beta[j] += answer[j] * step
	}
	out.beta[curve.Step] = step
	r.turnings(&out, r.a.Priors, as.Part)
	return out, true
}

// spread fills r.cov with the covariance of all parameters with a step that the others
// answer to so, and whose variance is one over own.
func (r *Solver) spread(without *[curve.Count][curve.Count]float64, answer [curve.Count]float64, own float64) {
	answer[curve.Step] = 1
	for j, row := range r.cov {
		for k := range row {
			row[k] = without[j][k] + answer[j]*answer[k]/own
		}
	}
}

func sq(x float64) float64 { return x * x }
