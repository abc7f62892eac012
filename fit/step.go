package fit

import "math"

// tryStep puts the damped step's end into s.next and tells the step's length in
// standard uncertainties.
func (s *Solver) tryStep(lambda float64) (size float64) {
	system := s.gauss
	if lambda > 0 {
		system = s.damp
		s.fold(system, lambda)
	}
	system.solve(s.step)
	size = s.move(lambda)
	s.evaluate(&s.next)
	if math.IsNaN(s.next.cost) {
		s.next.cost = math.Inf(1)
	}
	return size
}

// undampedSize is the length that the step would have without damping.
func (s *Solver) undampedSize() float64 {
	s.gauss.solve(s.step)
	return s.move(0)
}

// move takes the step to s.next, tells its length in standard uncertainties, and
// leaves in s.foreseen what it would gain if the problem were linear (More1978).
func (s *Solver) move(lambda float64) (size float64) {
	s.foreseen = 0
	size2 := s.moveBeta(lambda)
	size2 += s.moveAbscissae(lambda)
	return math.Sqrt(size2)
}

// moveBeta takes the step in the parameters and tells its squared length.
func (s *Solver) moveBeta(lambda float64) float64 {
	copy(s.next.beta, s.now.beta)
	for k, j := range s.free {
		s.next.beta[j] += s.step[k]
		s.foreseen += sq(s.step[k]/s.Priors[j].Sigma) + 2*lambda*sq(s.reach[k]*s.step[k])
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
		sigmaX, slope, dy := s.sigmaX(i), s.now.slope[i], 0.0
		for k, j := range s.free {
			dy += s.now.jac[j][i] * s.step[k]
		}
		if sigmaX == 0 {
			s.foreseen += s.pull[i] * sq(dy/s.SigmaY[i])
			continue
		}
		ratio := sq(sigmaX / s.SigmaY[i])
		bend := 1 + slope*slope*ratio
		dt := (s.X[i] - s.now.t[i] + slope*ratio*(s.Y[i]-s.now.f[i]-dy)) / (bend * (1 + lambda))
		s.next.t[i] += dt
		far := s.pull[i] * sq(dt/sigmaX)
		size2 += far
		s.foreseen += s.pull[i]*sq((dy+slope*dt)/s.SigmaY[i]) + far*(1+2*lambda*bend)
	}
	return size2
}
