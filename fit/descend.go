package fit

import "math"

// descent is how far a search has come.
type descent struct {
	steps    int
	lambda   float64 // damping of the next step
	undamped float64 // length that it would have without
	last     float64 // of the steps too small for the objective to judge
	// determined tells whether the observations fix every parameter here.
	determined bool
}

// descend steps from s.now until a step is small, keeping the best in s.now.
func (s *Solver) descend() (Status, int) {
	if !finite(s.now.cost) {
		return NotANumber, 0
	}
	d := descent{last: math.Inf(1)}
	for {
		s.look(&d)
		for took := false; !took; {
			if d.steps == s.MaxSteps {
				return OutOfSteps, d.steps
			}
			d.steps++
			var status Status
			if took, status = s.attempt(&d); status != goingOn {
				return status, d.steps
			}
		}
	}
}

// goingOn is the status of a search that is not at its end.
const goingOn Status = -1

// look linearises the problem where the search stands.
func (s *Solver) look(d *descent) {
	s.linearise()
	s.measure()
	d.determined = !s.gauss.deficient()
	if !d.determined && d.lambda == 0 {
		d.lambda = leastDamping // it may be so here and not farther on
	}
	d.undamped = 0
	if d.lambda > 0 {
		d.undamped = s.undampedSize()
	}
}

// attempt tries one step, and takes it where it goes down.
func (s *Solver) attempt(d *descent) (took bool, status Status) {
	size := s.tryStep(d.lambda)
	// A step too small for the objective to judge is judged by the one before it:
	// they shrink until only rounding is left.
	fine := d.lambda == 0 && s.atRounding(size) && finite(s.next.cost)
	switch {
	case !d.determined && d.lambda <= leastDamping && s.atRounding(size):
		return false, Undetermined
	case fine && size > 0.9*d.last:
		return false, Converged
	case fine || s.next.cost <= s.now.cost:
		if fine {
			d.last = size
		}
		return true, s.take(d, size)
	case d.undamped > 0 && s.atRounding(d.undamped):
		d.undamped, d.lambda = 0, 0
		return false, goingOn
	}
	if d.lambda = stiffen(d.lambda); d.lambda > 1e20 {
		return false, Stalled
	}
	return false, goingOn
}

// take goes where the step led.
func (s *Solver) take(d *descent, size float64) Status {
	gain := s.now.cost - s.next.cost
	s.now, s.next = s.next, s.now
	if d.lambda == 0 && size <= s.Tolerance*s.unit() {
		return Converged
	}
	if gain <= 0 {
		d.lambda = 0
	}
	d.lambda = s.damping(d.lambda, gain)
	return goingOn
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
