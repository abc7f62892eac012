package position

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
)

// Combined is one position seen in several sets, each another setting of the protractor
// on the crank: the mean of where each set has it, weighted by what it is known to there.
type Combined struct {
	Angle geometry.Angle // after TDC
	Of    []Seen         // as each set has it, the first one first; at least one
	Apart *Apart         // how the sets disagree; nil where they agree, or there is one alone

	weights []float64 // of each, together 1
}

// Apart is how far one set has a position from where all of them together have it.
type Apart struct {
	Index   int            // of the set, in Of
	By      geometry.Angle // late positive
	Limit   geometry.Angle // within which chance has it in all but one job of some hundreds
	scatter gum.Component  // of the mean, by what the sets scatter
}

// Combine is the mean of a position, at least one, known but for whole periods.
func Combine(of []Seen, period geometry.Angle) Combined {
	c := Combined{Of: of, weights: make([]float64, len(of))}
	if len(of) == 1 {
		c.weights[0], c.Angle = 1, of[0].Angle
		return c
	}
	sum := 0.0
	for i := range of {
		c.weights[i] = 1 / sq(of[i].Spread().Standard())
		sum += c.weights[i]
	}
	for i, s := range of {
		c.weights[i] /= sum
		c.Angle += geometry.Angle(c.weights[i]) * within(s.Angle-of[0].Angle, period)
	}
	c.Angle += of[0].Angle
	c.Apart = c.apart(period)
	return c
}

// within is an angle less whole periods, within half of one either way.
func within(a, period geometry.Angle) geometry.Angle {
	return geometry.Angle(math.Remainder(float64(a), float64(period)))
}

// apartBeyond is how many standard uncertainties a set may lie from all of them together
// before it is spoken of: one good one in 370 does.
const apartBeyond = 3

// apart is the set that lies farthest from all of them together, where that is too far.
func (c Combined) apart(period geometry.Angle) (most *Apart) {
	scatter, farthest := 0.0, 1.0
	for i, s := range c.Of {
		off := within(s.Angle-c.Angle, period)
		scatter += c.weights[i] * sq(float64(off))
		limit := apartBeyond * math.Sqrt(c.differs(i))
		if times := math.Abs(float64(off)) / limit; times > farthest {
			most, farthest = &Apart{Index: i, By: off, Limit: geometry.Angle(limit)}, times
		}
	}
	if most != nil {
		degrees := float64(len(c.Of) - 1)
		most.scatter = gum.Component{Standard: math.Sqrt(scatter / degrees), Degrees: degrees}
	}
	return most
}

// differs is the variance of one set's position less that of all together.
func (c Combined) differs(i int) float64 {
	sum := 0.0
	factor := func(k int) float64 {
		if k == i {
			return 1 - c.weights[k]
		}
		return -c.weights[k]
	}
	for k, s := range c.Of {
		sum += sq(factor(k)) * sq(s.Spread().Standard())
		for l, t := range c.Of[:k] {
			sum += 2 * factor(k) * factor(l) * s.Covariance(t)
		}
	}
	return math.Max(sum, 0)
}

// Spread is how sure the mean is: what readings leave of each set by its weight, the
// protractor's error along all of them, and the stated ranges with their signs.
func (c Combined) Spread() gum.Spread {
	var spread gum.Spread
	scale := c.along()
	readings := c.readings(&scale)
	spread.Normal = append(readings, gum.Component{Standard: math.Sqrt(scale), Degrees: math.Inf(1)})
	for i, s := range c.Of {
		spread.Normal = append(spread.Normal, times(s.Own, c.weights[i]))
	}
	if c.Apart != nil {
		spread.Normal = append(spread.Normal, c.Apart.scatter)
	}
	spread.Rectangular = c.stated()
	for i, s := range c.Of {
		if s.line > 0 {
			spread.Rectangular = append(spread.Rectangular, c.weights[i]*s.line)
		}
	}
	spread.Rectangular = append(spread.Rectangular, c.ranges()...)
	return spread
}

// ranges is what the positions' own stated ranges leave the mean: the same in every set, such as
// a drive's slack, and so no narrower for being met again.
func (c Combined) ranges() (list []float64) {
	for i, s := range c.Of {
		for k, own := range s.ranges {
			if k == len(list) {
				list = append(list, 0)
			}
			list[k] += c.weights[i] * own
		}
	}
	return slices.DeleteFunc(list, func(own float64) bool { return own <= 0 })
}

// along is the variance of the protractor's error in all sets, but for that at each
// position's own line: negative where the readings were taken at those lines.
func (c Combined) along() float64 {
	sum := 0.0
	for k, s := range c.Of {
		sum += sq(c.weights[k]) * s.scale
		for l, t := range c.Of[:k] {
			sum += 2 * c.weights[k] * c.weights[l] * s.alongScale(t)
		}
	}
	return sum
}

// readings is what the readings of each set leave; a negative share of the protractor's
// error is taken off them.
func (c Combined) readings(scale *float64) (parts []gum.Component) {
	whole := 0.0
	for i, s := range c.Of {
		parts = append(parts, times(s.Readings, c.weights[i]))
		whole += sq(parts[i].Standard)
	}
	if *scale < 0 {
		left := 0.0
		if whole > 0 {
			left = math.Sqrt(math.Max(0, (whole+*scale)/whole))
		}
		for i := range parts {
			parts[i].Standard *= left
		}
		*scale = 0
	}
	return parts
}

// stated is what each stated range leaves the mean: one of engine or gauge has the same
// sign in every set, and the wheel's centre stands elsewhere in each.
func (c Combined) stated() (list []float64) {
	var shared [curve.Count]float64
	for i, s := range c.Of {
		for j, of := range s.stated() {
			switch {
			case of == 0:
			case ofEngineOrGauge(j):
				shared[j] += c.weights[i] * of
			default:
				list = append(list, c.weights[i]*math.Abs(of))
			}
		}
	}
	for _, of := range shared {
		if of != 0 {
			list = append(list, math.Abs(of))
		}
	}
	return list
}

// times is a component by a weight.
func times(c gum.Component, weight float64) gum.Component {
	c.Standard *= weight
	return c
}

// OfTDC is the part of its uncertainty that the TDC of each set leaves every position
// read in the same sets, radians, standard.
func (c Combined) OfTDC() float64 {
	sum := 0.0
	for k, s := range c.Of {
		sum += sq(c.weights[k]) * sq(s.ofTDC())
		for l, t := range c.Of[:k] {
			sum += 2 * c.weights[k] * c.weights[l] * s.tdcWith(t)
		}
	}
	return math.Sqrt(math.Max(0, sum))
}

// Covariance is what two positions share, radians squared, each combined of its sets.
func (c Combined) Covariance(other Combined) float64 {
	sum := 0.0
	for i, s := range c.Of {
		for k, t := range other.Of {
			sum += c.weights[i] * other.weights[k] * s.Covariance(t)
		}
	}
	return sum
}

func sq(x float64) float64 { return x * x }
