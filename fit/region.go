package fit

import "math"

// region is where the linearised problem is trusted: a ball about the place where
// the search stands, each parameter measured by its reach and each abscissa by its
// curvature (More1978; with abscissae, Boggs1987).
type region struct {
	radius float64
	lambda float64 // the damping that keeps the step within
	hold   float64 // the least damping, while the curve's bend asks for some
}

const (
	// firstRadius is the first region's, in lengths of the parameters; in one of tens
	// a first step may end where a parameter has no effect (BoxBOD of NIST).
	firstRadius = 1
	// slack is how far from the radius a damped step may end. The radius is a guess itself: 1.1
	// took a quarter more foldings of readings of no piston, and the simulations ended alike.
	slack = 1.5
	// firstDamping is where the search for the right one starts.
	firstDamping = 1e-4
	// leastDamping is the least where the observations do not fix every parameter: it
	// holds what differs from the others by less than 1e-8, as a sine.
	leastDamping = 1e-16
)

// firstRegion is the one about the start, without bound where all parameters are
// zero.
func (s *Solver) firstRegion() region {
	if length := s.lengthOfBeta(); length > 0 {
		return region{radius: firstRadius * length}
	}
	return region{radius: math.Inf(1)}
}

// aim puts the end of the longest step within the region into s.next and tells its
// length in standard uncertainties. Least damping, none where the observations fix
// every parameter, is right where the step is then too short for a region to matter;
// where the bend of the curve held steps back before, they are held so on.
func (s *Solver) aim(r *region, least float64) (size float64) {
	size = s.damped(least)
	if s.atRounding(size) {
		r.lambda = least
		return size
	}
	if r.hold > least {
		least = r.hold
		size = s.damped(least)
	}
	if s.length <= slack*r.radius {
		r.lambda = least
		return size
	}
	low, high := least, math.Inf(1) // too little damping, too much
	if r.lambda <= least {
		r.lambda = firstDamping
	}
	for ; ; r.lambda = between(low, high) {
		size = s.damped(r.lambda)
		switch over := s.length / r.radius; {
		case over > slack:
			low = r.lambda
		case over < 1/slack:
			high = r.lambda
		default:
			return size
		}
		if !(high > slack*low) {
			return size
		}
	}
}

// between is the next damping to try.
func between(low, high float64) float64 {
	switch {
	case math.IsInf(high, 1):
		return 10 * low
	case low == 0:
		return high / 10
	}
	return math.Sqrt(low * high)
}

// judge makes the region smaller where a step of a length gained too little of what
// was foreseen, and greater where it gained most of it. Near a minimum where undamped
// steps overshoot, a radius alone would let each second one do so: the damping that a
// step took is held until a gain is as foreseen, and then let go by tens.
func (r *region) judge(gain, foreseen, length float64) {
	r.hold = r.lambda
	switch {
	case gain <= foreseen/4:
		share := math.Max(0.1, lowest(gain, foreseen-r.lambda*length*length))
		r.radius = share * math.Min(r.radius, 10*length)
		r.lambda /= share
	case gain >= foreseen*3/4:
		r.radius = 2 * length
		if r.hold /= 10; r.hold < 1e-8 {
			r.hold = 0
		}
	}
}

// lowest is where along a step, from 0 to 1/2, the parabola is lowest that starts as
// steep as the objective, falls by slope and ends lower by gain.
func lowest(gain, slope float64) float64 {
	if gain >= 0 {
		return 0.5
	}
	return slope / (2*slope - gain)
}
