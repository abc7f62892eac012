package fit

import "math"

// descent is how far a search has come.
type descent struct {
	region
	steps int
	last  float64 // of the steps too small for the objective to judge
	least float64 // damping: none where the observations fix every parameter
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
	d.least = 0
	if s.gauss.deficient() {
		d.least = leastDamping // it may be so here and not farther on
	}
	if d.steps == 0 {
		d.region = s.firstRegion()
	}
}

// attempt tries one step, and takes it where it goes down as far as may be.
func (s *Solver) attempt(d *descent) (took bool, status Status) {
	size := s.aim(&d.region, d.least)
	s.evaluate(&s.next)
	gain := s.gain()
	took = gain >= leastGain*s.foreseen
	// A step too small for the objective to judge is judged by the one before it:
	// they shrink until only rounding is left.
	fine := d.lambda == 0 && s.atRounding(size) && finite(s.next.cost)
	switch {
	case d.least > 0 && d.lambda == d.least && s.atRounding(size):
		return false, Undetermined
	case fine && size > 0.9*d.last:
		return false, Converged
	case fine:
		d.last, took = size, true
	case !took && !(s.foreseen > 1e-15*s.now.cost):
		return false, Stalled
	default:
		d.judge(gain, s.foreseen, s.length)
	}
	if !took {
		return false, goingOn
	}
	return true, s.take(d, size)
}

// leastGain is the share of the gain foreseen that makes a step worth taking
// (More1978).
const leastGain = 1e-4

// gain is how far the objective falls by going to s.next, minus infinity where it
// cannot be computed there.
func (s *Solver) gain() float64 {
	if !finite(s.next.cost) {
		return math.Inf(-1)
	}
	return s.now.cost - s.next.cost
}

// take goes where the step led.
func (s *Solver) take(d *descent, size float64) Status {
	s.now, s.next = s.next, s.now
	if d.lambda == 0 && size <= s.Tolerance*s.unit() {
		return Converged
	}
	return goingOn
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

// lengthOfBeta is the parameters' length in the same measure as a step's, here and
// not in their reaches: a place long left behind says nothing of roundings here.
func (s *Solver) lengthOfBeta() float64 {
	sum := 0.0
	for k, j := range s.free {
		sum += sq(s.norm[k] * s.now.beta[j])
	}
	return math.Sqrt(sum)
}
