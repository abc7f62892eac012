package fit

import "math"

// descend steps from s.now until a step is small, keeping the best in s.now.
func (s *Solver) descend() (Status, int) {
	if !finite(s.now.cost) {
		return NotANumber, 0
	}
	lambda, last := 0.0, math.Inf(1)
	for steps := 0; steps < s.MaxSteps; {
		s.linearise()
		s.measure()
		determined := !s.gauss.deficient()
		if !determined && lambda == 0 {
			lambda = leastDamping // it may be so here and not farther on
		}
		undamped := 0.0
		if lambda > 0 {
			undamped = s.undampedSize()
		}
		for {
			if steps++; steps > s.MaxSteps {
				return OutOfSteps, s.MaxSteps
			}
			size := s.tryStep(lambda)
			if !determined && lambda <= leastDamping && s.atRounding(size) {
				return Undetermined, steps
			}
			// A step too small for the objective to judge is judged by the one
			// before it: they shrink until only rounding is left.
			fine := lambda == 0 && s.atRounding(size) && finite(s.next.cost)
			if fine && size > 0.9*last {
				return Converged, steps
			}
			if fine || s.next.cost <= s.now.cost {
				gain := s.now.cost - s.next.cost
				s.now, s.next = s.next, s.now
				if lambda == 0 && size <= s.Tolerance*s.unit() {
					return Converged, steps
				}
				if fine {
					last = size
				}
				if gain <= 0 && lambda > 0 {
					lambda = 0
				}
				lambda = s.damping(lambda, gain)
				break
			}
			if undamped > 0 && s.atRounding(undamped) {
				undamped, lambda = 0, 0
				continue
			}
			if lambda = stiffen(lambda); lambda > 1e20 {
				return Stalled, steps
			}
		}
	}
	return OutOfSteps, s.MaxSteps
}

// damping is for the step after one that gained: less where it gained nearly what
// the linearised problem foresaw, more where the curve's bend took most of that away.
func (s *Solver) damping(lambda, gain float64) float64 {
	switch {
	case s.atRounding(math.Sqrt(s.foreseen)): // the gain is, too
		return relax(lambda)
	case gain < s.foreseen/4:
		return stiffen(lambda)
	case gain < s.foreseen*3/4:
		return lambda
	}
	return relax(lambda)
}

// Damping as by Marquardt: ten times less or more, none at all once it is too small
// to matter.
const leastDamping = 1e-4 // to begin with

func relax(lambda float64) float64 {
	if lambda /= 10; lambda < 1e-8 {
		return 0
	}
	return lambda
}

func stiffen(lambda float64) float64 {
	if lambda == 0 {
		return leastDamping
	}
	return lambda * 10
}

// unit is the size of a standard uncertainty in the objective, by what the residuals
// say.
func (s *Solver) unit() float64 {
	return math.Sqrt(s.now.cost / math.Max(1, float64(len(s.X)-len(s.free))))
}

// atRounding tells whether a step that made nothing better was one that could
// not: it changes the objective by less than the objective's own digits.
func (s *Solver) atRounding(size float64) bool {
	return size*size <= 1e-11*s.now.cost || size <= 1e-13*s.lengthOfBeta()
}

// lengthOfBeta is the parameters' length in the same measure as a step's.
func (s *Solver) lengthOfBeta() float64 {
	sum := 0.0
	for k, j := range s.free {
		sum += sq(s.reach[k] * s.now.beta[j])
	}
	return math.Sqrt(sum)
}
