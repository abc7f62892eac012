package fit

import "math"

// evaluate computes the curve and the objective at st.
func (s *Solver) evaluate(st *state) {
	s.Model.Evaluate(st.beta, st.t, st.f, st.slope, st.jac)
	st.cost = s.objective(st)
}

// objective is what is minimised, at st, where the curve is known.
func (s *Solver) objective(st *state) float64 {
	cost := 0.0
	for i := range st.t {
		z2 := s.distance2(st, i)
		if s.loss.kind == squares {
			cost += z2
		} else {
			cost += s.loss.cost(math.Sqrt(z2))
		}
	}
	for _, j := range s.free {
		cost += sq((st.beta[j] - s.Priors[j].Mean) / s.Priors[j].Sigma)
	}
	return cost
}

// distance2 is reading i's squared distance from its place on the curve, in
// standard uncertainties of both variables: what the loss is asked about. Weights
// by anything else would make steps that need not go down.
func (s *Solver) distance2(st *state, i int) float64 {
	z2 := sq((s.Y[i] - st.f[i]) / s.SigmaY[i])
	if sigma := s.sigmaX(i); sigma > 0 {
		z2 += sq((s.X[i] - st.t[i]) / sigma)
	}
	return z2
}

func (s *Solver) sigmaX(i int) float64 {
	if s.SigmaX == nil {
		return 0
	}
	return s.SigmaX[i]
}

// weight is what the loss leaves of reading i at s.now.
func (s *Solver) weight(i int) float64 {
	return s.loss.weight(math.Sqrt(s.distance2(&s.now, i)))
}

// linearise builds the triangle of the problem linearised at s.now, every
// reading's row scaled by the root of its weight, the loss's bend apart.
func (s *Solver) linearise() {
	for i := range s.X {
		s.pull[i] = s.weight(i)
	}
	s.fold(s.gauss, 0)
}

// fold makes the triangle of the linearised problem with every step damped by
// lambda: in the parameters by as many of their reaches squared, and in each
// abscissa by as many of its own curvatures. Damped so throughout, a step that is
// short enough goes down (Boggs1987; without the abscissae's part it need not).
func (s *Solver) fold(into triangle, lambda float64) {
	for i := range s.X {
		e, sigma := s.residual(i, lambda)
		s.scale[i] = math.Sqrt(s.pull[i]) / sigma
		s.right[i] = s.scale[i] * e
	}
	for k, j := range s.free {
		row, jac := s.rows[k][:len(s.scale)], s.now.jac[j][:len(s.scale)]
		for i, scale := range s.scale {
			row[i] = scale * jac[i]
		}
	}
	for k, j := range s.free {
		prior := s.Priors[j]
		row := math.Hypot(1/prior.Sigma, math.Sqrt(lambda)*math.Max(s.reach[k], 1e-300))
		s.step[k], s.zero[k] = row, 0
		if !math.IsInf(prior.Sigma, 1) {
			s.zero[k] = (prior.Mean - s.now.beta[j]) / prior.Sigma / (prior.Sigma * row)
		}
	}
	into.diagonal(s.step)
	copy(into.q, s.zero)
	into.fold(s.rows, s.right)
}

// residual is reading i's distance from the tangent of the curve at t, and the
// standard uncertainty of that distance: what is left when t is eliminated. Where t may
// go only as far as lambda lets it, more is left, and less uncertain.
func (s *Solver) residual(i int, lambda float64) (e, sigma float64) {
	e, sigma = s.Y[i]-s.now.f[i], s.SigmaY[i]
	if sigmaX := s.sigmaX(i); sigmaX > 0 {
		steep := sq(s.now.slope[i] * sigmaX / sigma)
		left := 1 + lambda + lambda*steep
		e -= s.now.slope[i] * (s.X[i] - s.now.t[i]) / left
		sigma *= math.Sqrt((1 + steep) * (1 + lambda) / left)
	}
	return e, sigma
}

// measure takes each column's length, and keeps the greatest it has had, the scale
// in which steps are damped (More1978).
func (s *Solver) measure() {
	for k, column := range s.gauss.r {
		s.norm[k] = math.Sqrt(dot(column[:k+1], column[:k+1]))
		s.reach[k] = math.Max(s.reach[k], s.norm[k])
	}
}

func sq(x float64) float64 { return x * x }
