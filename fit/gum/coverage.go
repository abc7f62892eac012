package gum

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
)

// Estimate is an angle and how sure it is.
type Estimate struct {
	Angle       geometry.Angle // crank, from the protractor's zero
	Uncertainty geometry.Angle // standard uncertainty
	Expanded    geometry.Angle // half-width of the 95 % interval
	// DegreesOfFreedom is the effective number (JCGM 100 G.4.1); +Inf when no
	// part of the uncertainty was itself estimated from scatter.
	DegreesOfFreedom float64
}

// Component is one part of an uncertainty, close to normal.
type Component struct {
	Standard float64 // standard uncertainty
	Degrees  float64 // of freedom it was estimated with; +Inf when it was stated
}

// Spread is an uncertainty by the shape of its parts: what readings leave, close to
// normal because many add up, and what stated ranges leave, each rectangular.
type Spread struct {
	Normal      []Component
	Rectangular []float64 // standard uncertainty of each rectangular part
}

// Standard is the combined standard uncertainty.
func (s Spread) Standard() float64 {
	normal := s.normal().Standard
	sum := normal * normal
	for _, r := range s.Rectangular {
		sum += r * r
	}
	return math.Sqrt(sum)
}

// Degrees is the effective degrees of freedom by Welch and Satterthwaite
// (JCGM 100 G.2b).
func (s Spread) Degrees() float64 {
	normal := s.normal()
	if normal.Standard == 0 {
		return math.Inf(1)
	}
	return normal.Degrees * math.Pow(s.Standard()/normal.Standard, 4)
}

// normal is the normal components together.
func (s Spread) normal() Component {
	square, fourth := 0.0, 0.0
	for _, c := range s.Normal {
		own := c.Standard * c.Standard
		square += own
		fourth += own * own / c.Degrees
	}
	if fourth == 0 {
		return Component{math.Sqrt(square), math.Inf(1)}
	}
	return Component{math.Sqrt(square), square * square / fourth}
}

// Expanded is the half-width of the symmetric 95 % interval. The greatest
// rectangular part keeps its shape, since a sum that one such part rules has
// less in its tails than a normal one (JCGM 101 9.2.4); the others count as
// normal. Few degrees of freedom widen the normal part as Student's t does.
func (s Spread) Expanded() float64 {
	greatest, others := 0.0, 0.0
	for _, r := range s.Rectangular {
		greatest = math.Max(greatest, math.Abs(r))
		others += r * r
	}
	others = math.Max(0, others-greatest*greatest)
	normal := s.normal()
	widened := normal.Standard * Student95(normal.Degrees) / Normal95
	return half95(math.Sqrt(others+widened*widened), greatest*math.Sqrt(3))
}

// Estimate is an angle with this uncertainty.
func (s Spread) Estimate(angle geometry.Angle) Estimate {
	return Estimate{
		Angle:            angle,
		Uncertainty:      geometry.Angle(s.Standard()),
		Expanded:         geometry.Angle(s.Expanded()),
		DegreesOfFreedom: s.Degrees(),
	}
}

// Normal95 is the 0.975 quantile of the normal distribution.
var Normal95 = distuv.UnitNormal.Quantile(0.975)

// Student95 is the 0.975 quantile of Student's t.
func Student95(degrees float64) float64 {
	if math.IsInf(degrees, 1) || degrees > 1e6 {
		return Normal95
	}
	return distuv.StudentsT{Sigma: 1, Nu: degrees}.Quantile(0.975)
}

// half95 is the half-width that holds 95 % of the sum of a normal error of
// standard uncertainty sigma and one rectangular within +-half.
func half95(sigma, half float64) float64 {
	if half < 0.05*sigma { // the shape no longer shows in five digits
		return Normal95 * math.Hypot(sigma, half/math.Sqrt(3))
	}
	if sigma < 1e-6*half {
		return 0.95 * half
	}
	low, high := 0.0, half+5*sigma
	for range 60 {
		middle := (low + high) / 2
		if inside(middle, sigma, half) < 0.95 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// inside is the probability of the same sum lying within +-x: the normal
// distribution function averaged over the rectangle.
func inside(x, sigma, half float64) float64 {
	integral := func(z float64) float64 {
		return z*distuv.UnitNormal.CDF(z) + distuv.UnitNormal.Prob(z)
	}
	up, down := (x+half)/sigma, (x-half)/sigma
	return (integral(up)-integral(down))*sigma/half - 1
}
