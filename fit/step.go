package fit

import "math"

// damped puts the end of the step damped by lambda into s.next, not the curve there,
// and tells the step's length in standard uncertainties.
func (s *Solver) damped(lambda float64) (size float64) {
	system := s.gauss
	if lambda > 0 {
		system = s.damp
		s.fold(system, lambda)
	}
	system.solve(s.step)
	return s.move(lambda)
}

// move takes the step to s.next and tells its length in standard uncertainties. It
// leaves in s.foreseen what the step would gain if the problem were linear, and in
// s.length how long it is as the region measures it (More1978).
func (s *Solver) move(lambda float64) (size float64) {
	s.foreseen, s.length = 0, 0
	size2 := s.moveBeta(lambda)
	size2 += s.moveAbscissae(lambda)
	s.foreseen += 2 * lambda * s.length
	s.length = math.Sqrt(s.length)
	return math.Sqrt(size2)
}

// moveBeta takes the step in the parameters and tells its squared length.
func (s *Solver) moveBeta(lambda float64) float64 {
	copy(s.next.beta, s.now.beta)
	for k, j := range s.free {
		s.next.beta[j] += s.step[k]
		s.foreseen += sq(s.step[k] / s.Priors[j].Sigma)
		s.length += sq(s.reach[k] * s.step[k])
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
	clear(s.rise)
	for k, j := range s.free {
		axpy(s.step[k], s.now.jac[j], s.rise)
	}
	size2 := 0.0
	for i, dy := range s.rise {
		sigmaX, slope := s.sigmaX(i), s.now.slope[i]
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
		s.foreseen += s.pull[i]*sq((dy+slope*dt)/s.SigmaY[i]) + far
		s.length += far * bend
	}
	return size2
}
