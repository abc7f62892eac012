package fit

import "math"

// tryStep puts the damped step's end into s.next and tells the step's length in
// standard uncertainties.
func (s *Solver) tryStep(lambda float64) (size float64) {
	system := s.gauss
	if lambda > 0 {
		system = s.damped(lambda)
	}
	system.solve(s.step)
	size2 := s.moveBeta()
	size2 += s.moveAbscissae(lambda)
	s.evaluate(&s.next)
	if math.IsNaN(s.next.cost) {
		s.next.cost = math.Inf(1)
	}
	return math.Sqrt(size2)
}

// damped is the triangle with lambda times the columns' reach as further rows.
func (s *Solver) damped(lambda float64) triangle {
	for k := range s.gauss.r {
		copy(s.copyR[k], s.gauss.r[k])
		s.zero[k] = math.Sqrt(lambda) * math.Max(s.reach[k], 1e-300)
	}
	copy(s.copyQ, s.gauss.q)
	s.damp.diagonal(s.zero)
	s.damp.fold(s.copyR, s.copyQ)
	return s.damp
}

// moveBeta takes the step in the parameters and tells its squared length.
func (s *Solver) moveBeta() float64 {
	copy(s.next.beta, s.now.beta)
	for k, j := range s.free {
		s.next.beta[j] += s.step[k]
	}
	size2 := 0.0
	for k := range s.free {
		along := 0.0
		for j := k; j < len(s.free); j++ {
			along += s.gauss.r[j][k] * s.step[j]
		}
		size2 += along * along
	}
	return size2
}

// moveAbscissae puts every t where the linearised curve comes nearest its
// reading, and tells how far they went, squared, in standard uncertainties, a
// reading that has been let go not counting.
func (s *Solver) moveAbscissae(lambda float64) float64 {
	copy(s.next.t, s.now.t)
	size2 := 0.0
	for i := range s.X {
		sigmaX := s.sigmaX(i)
		if sigmaX == 0 {
			continue
		}
		e := s.Y[i] - s.now.f[i]
		for k, j := range s.free {
			e -= s.now.jac[j][i] * s.step[k]
		}
		slope, ratio := s.now.slope[i], sq(sigmaX/s.SigmaY[i])
		dt := (s.X[i] - s.now.t[i] + slope*ratio*e) / ((1 + slope*slope*ratio) * (1 + lambda))
		s.next.t[i] += dt
		size2 += s.pull[i] * sq(dt/sigmaX)
	}
	return size2
}
