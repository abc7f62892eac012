package fit

import "math"

// Loss says how much a standardised residual costs. The zero value is least
// squares.
type Loss struct {
	kind   lossKind
	tuning float64
	scale  float64 // scatter in standard uncertainties, at least 1
}

type lossKind int

const (
	squares lossKind = iota
	huber
	bisquare
)

// Tuning constants for 95 % efficiency on normal errors (Huber1964,
// BeatonTukey; computed to more digits by quadrature of the same integrals).
const (
	huberTuning    = 1.3449975
	bisquareTuning = 4.6850649
)

// LeastSquares is the loss z^2.
func LeastSquares() Loss { return Loss{} }

// Huber grows as z^2 near nought and as |z| beyond: its minimum does not depend
// on the start, and no reading pulls harder than 1.345 standard uncertainties.
func Huber(scale float64) Loss { return Loss{huber, huberTuning, scale} }

// Bisquare lets go altogether of a reading 4.685 scatters off (BeatonTukey). It
// needs a start that is already near.
func Bisquare(scale float64) Loss { return Loss{bisquare, bisquareTuning, scale} }

// cost is the loss itself: z^2 for a small residual.
func (l Loss) cost(z float64) float64 {
	switch l.kind {
	case huber:
		if c := l.tuning * l.scale; math.Abs(z) > c {
			return c * (2*math.Abs(z) - c)
		}
	case bisquare:
		c := l.tuning * l.scale
		return c * c / 3 * (1 - cube(l.room(z)))
	}
	return z * z
}

// Weight is what is left of a reading's pull, 1 for all and 0 for nothing.
func (l Loss) Weight(z float64) float64 {
	switch l.kind {
	case huber:
		if c := l.tuning * l.scale; math.Abs(z) > c {
			return c / math.Abs(z)
		}
	case bisquare:
		room := l.room(z)
		return room * room
	}
	return 1
}

// bend is half the second derivative of cost, held above a quarter of the
// weight so that a step computed with it goes down.
func (l Loss) bend(z float64) float64 {
	switch l.kind {
	case huber:
		if math.Abs(z) > l.tuning*l.scale {
			return l.Weight(z) / 4
		}
	case bisquare:
		room := l.room(z)
		q := z / (l.tuning * l.scale)
		return math.Max(room*room-4*room*q*q, room*room/4)
	}
	return 1
}

// room is 1 - (z/c)^2, or nought beyond c.
func (l Loss) room(z float64) float64 {
	q := z / (l.tuning * l.scale)
	return math.Max(0, 1-q*q)
}

func cube(x float64) float64 { return x * x * x }

// fairness makes the weights of clean readings, taken together, worth what the
// loss leaves of their information. For normal errors the estimate's variance is
// 1/efficiency of the least-squares one, while the mean weight alone would say
// 1/mean: at these tunings 0.95 over 0.9151 (bisquare) and 0.95 over 0.9599
// (Huber), both means by quadrature.
func (l Loss) fairness() float64 {
	switch l.kind {
	case huber:
		return 0.95 / 0.9599
	case bisquare:
		return 0.95 / 0.9151
	}
	return 1
}
