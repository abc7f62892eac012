package gum

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Possible is one of several things that a quantity may be: where it would lie then,
// with a normal error of standard uncertainty Normal and one rectangular within
// +-Half, and how probable that is.
type Possible struct {
	Weight, At, Normal, Half float64
}

// Mixture is a quantity that is one of several things; the weights add up to one.
type Mixture []Possible

// below is the probability of the quantity lying below x.
func (p Possible) below(x float64) float64 {
	x -= p.At
	switch {
	case p.Half < 0.05*p.Normal || p.Half == 0: // the shape no longer shows in five digits
		return distuv.UnitNormal.CDF(x / math.Hypot(p.Normal, p.Half/math.Sqrt(3)))
	case p.Normal < 1e-6*p.Half:
		return math.Max(0, math.Min(1, (x+p.Half)/(2*p.Half)))
	}
	integral := func(z float64) float64 { return z*distuv.UnitNormal.CDF(z) + distuv.UnitNormal.Prob(z) }
	return (integral((x+p.Half)/p.Normal) - integral((x-p.Half)/p.Normal)) * p.Normal / (2 * p.Half)
}

// below is the probability of the quantity lying below x.
func (m Mixture) below(x float64) float64 {
	sum := 0.0
	for _, p := range m {
		sum += p.Weight * p.below(x)
	}
	return sum
}

// point is where the quantity lies below with a probability.
func (m Mixture) point(probability float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range m {
		reach := p.Half + 9*p.Normal // beyond nine deviations nothing is left to count
		low, high = math.Min(low, p.At-reach), math.Max(high, p.At+reach)
	}
	under, over := -probability, 1-probability // what is below the ends, less the probability
	const most, enough = 60, 1e-7
	for k := range most {
		x := (low + high) / 2
		if k%2 == 1 { // every other time where a straight line would be through
			x = low - under*(high-low)/(over-under)
		}
		switch off := m.below(x) - probability; {
		case math.Abs(off) < enough:
			return x
		case off < 0:
			low, under = x, off
		default:
			high, over = x, off
		}
	}
	return (low + high) / 2
}

// Interval is the interval that leaves 2.5 % on either side, by its middle and half its
// width.
func (m Mixture) Interval() (middle, half float64) {
	low, high := m.point(0.025), m.point(0.975)
	return (low + high) / 2, (high - low) / 2
}

// Beside is the standard uncertainty of a further normal error with which the interval
// of 95 % about the place would have such a half-width; zero where it has more.
func (p Possible) Beside(half float64) float64 {
	square := 0.0
	const rounds = 6 // each leaves a tenth of what the one before left, or less
	for range rounds {
		own := half95(math.Sqrt(p.Normal*p.Normal+square), p.Half)
		square = math.Max(0, square+(half*half-own*own)/(Normal95*Normal95))
	}
	return math.Sqrt(square)
}
