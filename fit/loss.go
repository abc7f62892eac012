package fit

import "math"

// Loss says how much a standardised residual costs. The zero value is least
// squares.
type Loss struct {
	kind  lossKind
	scale float64 // scatter in standard uncertainties, at least 1
}

type lossKind int

const (
	squares lossKind = iota
	huber
	redescending
)

const (
	// huberTuning gives 95 % efficiency on normal errors (Huber1964; computed to
	// more digits by quadrature of the same integral).
	huberTuning = 1.3449975
	// A reading within full scatters counts in full, one beyond none not at all.
	full, none = 3.0, 4.5
)

// LeastSquares is the loss z^2.
func LeastSquares() Loss { return Loss{} }

// Huber grows as z^2 near zero and as |z| beyond: its minimum does not depend
// on the start, and no reading pulls harder than 1.345 scatters.
func Huber(scale float64) Loss { return Loss{huber, scale} }

// Redescending is least squares for readings within three scatters, so that
// clean ones lose nothing, and lets go of a reading farther off by degrees, all
// of it at four and a half: the weight falls as Tukey's biweight does
// (BeatonTukey), begun where clean readings end. It needs a start that is near.
func Redescending(scale float64) Loss { return Loss{redescending, scale} }

// cost is the loss itself: z^2 for a small residual.
func (l Loss) cost(z float64) float64 {
	z = math.Abs(z)
	switch c := huberTuning * l.scale; {
	case l.kind == huber && z > c:
		return c * (2*z - c)
	case l.kind == redescending && z > full*l.scale:
		return l.tail(z)
	}
	return z * z
}

// tail is the redescending cost beyond full scatters: twice the integral of z
// times its weight.
func (l Loss) tail(z float64) float64 {
	a, b := full*l.scale, (none-full)*l.scale
	y := math.Min(z-a, b)
	q := y * y / (b * b)
	return a*a + 2*a*y*(1-2*q/3+q*q/5) + y*y*(1-q+q*q/3)
}

// weight is what is left of a reading's pull, 1 for all and 0 for nothing.
func (l Loss) weight(z float64) float64 {
	z = math.Abs(z)
	switch c := huberTuning * l.scale; {
	case l.kind == huber && z > c:
		return c / z
	case l.kind == redescending && z > full*l.scale:
		q := l.beyond(z)
		return sq(1 - q*q)
	}
	return 1
}

// beyond is how far z is on the way from full to none, 0 to 1.
func (l Loss) beyond(z float64) float64 {
	return math.Min(1, (z/l.scale-full)/(none-full))
}
