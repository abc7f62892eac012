package lobe

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/position"
)

// sum is an angle as a weighted sum of what was read.
type sum struct {
	angle  []float64 // how it answers to each reading's angle
	lift   []float64 // and to each lift, radians per mm
	zero   float64   // and to the zero of all lifts
	heel   float64   // the square of how it answers to the heel at each flank, radians per mm, squared
	scale  float64   // and to the gauge's scale, radians
	stated []float64 // standard uncertainties of stated ranges, radians
}

func (d *laid) newSum() sum {
	return sum{angle: make([]float64, len(d.read)), lift: make([]float64, len(d.read))}
}

// add is the sum with a reading's angle in it.
func (s sum) add(i int, weight float64) sum {
	s.angle[i] += weight
	return s
}

// byLifts is a sum of places on one flank, each of which answers to its lift by the
// flank's slope, mm a radian.
func (s sum) byLifts(slope float64) sum {
	for i, w := range s.angle {
		s.lift[i] = -w / slope
	}
	s.zero, s.heel = -1/slope, sq(1/slope)
	return s
}

// plus is the sum of a part of this one and of another.
func (s sum) plus(factor float64, other sum, by float64) sum {
	out := sum{zero: factor*s.zero + by*other.zero, heel: sq(factor)*s.heel + sq(by)*other.heel, scale: factor*s.scale + by*other.scale}
	for i := range s.angle {
		out.angle = append(out.angle, factor*s.angle[i]+by*other.angle[i])
		out.lift = append(out.lift, factor*s.lift[i]+by*other.lift[i])
	}
	for _, stated := range s.stated {
		out.stated = append(out.stated, math.Abs(factor)*stated)
	}
	for _, stated := range other.stated {
		out.stated = append(out.stated, math.Abs(by)*stated)
	}
	return out
}

// of is the sum of numbers, one a reading.
func (s sum) of(numbers []float64) float64 {
	total := 0.0
	for i, w := range s.angle {
		total += w * numbers[i]
	}
	return total
}

// places is where the sum was read on the protractor.
func (s sum) places(d *laid) (list []position.Graduation) {
	for i, w := range s.angle {
		if w != 0 {
			list = append(list, position.Graduation{Angle: d.read[i].Angle, Weight: w})
		}
	}
	return list
}

// own is what the rounding of the angles, the lifts and the cam's running out leave the
// sum, radians: the zero was set at one place of a heel that runs out, and each flank is
// at another (lobes.md 4, event and centre).
func (s sum) own(d *laid) gum.Component {
	square := 0.0
	for i, w := range s.angle {
		square += sq(w*float64(d.step))/12 + sq(s.lift[i]*d.gauge())
	}
	square += sq(float64(d.lobe.Gauge.RunOut)) / 4 * (sq(s.zero) + s.heel)
	return gum.Component{Standard: math.Sqrt(square), Degrees: math.Inf(1)}
}

// ranges is the stated ranges of the sum: its own, and the gauge's scale.
func (s sum) ranges(d *laid) (list []float64) {
	list = append(list, s.stated...)
	if k := math.Abs(s.scale) * d.lobe.Gauge.ScaleKnownTo / math.Sqrt(3); k > 0 {
		list = append(list, k)
	}
	return list
}

// covariance is what the rounding of angles and the lifts leave two sums, radians squared.
func (s sum) covariance(d *laid, other sum) float64 {
	total := 0.0
	for i := range s.angle {
		total += s.angle[i]*other.angle[i]*sq(float64(d.step))/12 + s.lift[i]*other.lift[i]*sq(d.gauge())
	}
	return total + sq(float64(d.lobe.Gauge.RunOut))/4*s.zero*other.zero + s.scale*other.scale*sq(d.lobe.Gauge.ScaleKnownTo)/3
}

// seen is the sum as a position on the protractor.
func (s sum) seen(d *laid, through reckoning) position.Seen {
	return through(s.places(d), s.own(d), s.ranges(d)...)
}

// reckoning is a position reckoned from places on the protractor: that of a tdc.Result.
type reckoning func(places []position.Graduation, own gum.Component, ranges ...float64) position.Seen

// Quantity is an angle that a lobe's readings tell.
type Quantity struct {
	gum.Estimate
	Seen position.Seen // as the protractor showed it
}

// quantity is a sum, so much later than its places say.
func (d *laid) quantity(s sum, through reckoning, later geometry.Angle) Quantity {
	seen := s.seen(d, through)
	seen.Angle += later
	return Quantity{seen.Spread().Estimate(seen.Angle), seen}
}
