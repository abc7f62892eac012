package teeth

import (
	"math"
	"sort"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/signal"
)

// Curve is the crank angle over time through the teeth of a run.
type Curve struct {
	Times  []float64 // of the teeth, seconds
	Angles []geometry.Angle
}

// stencil is how many teeth the curve at a place goes through. A straight line
// from edge to edge would be out by a degree or so in the middle of a gap at
// cranking speed.
const stencil = 6

// NewCurve goes through a run's teeth, but those that rough says.
func NewCurve(r Run, w wheel.Wheel, rough map[int]bool) Curve {
	var c Curve
	n := w.Teeth()
	offset := geometry.Angle(0)
	places := make([]geometry.Angle, n)
	for i := range places {
		places[i] = w.Angle(float64(i))
	}
	for i, t := range r.Times {
		if i > 0 && i%n == 0 {
			offset += geometry.Turn
		}
		if !rough[i%n] {
			c.Times = append(c.Times, t)
			c.Angles = append(c.Angles, offset+places[i%n])
		}
	}
	return c
}

// At is the angle at a time: the polynomial through the nearest teeth, half of
// them on either side where there are so many.
func (c Curve) At(t float64) geometry.Angle {
	k := sort.SearchFloat64s(c.Times, t)
	from := max(0, min(k-stencil/2, len(c.Times)-stencil))
	to := min(len(c.Times), from+stencil)
	return neville(c.Times[from:to], c.Angles[from:to], t)
}

// neville is the value at t of the polynomial through points (Neville's scheme).
func neville(times []float64, angles []geometry.Angle, t float64) geometry.Angle {
	var p [stencil]float64
	for i, a := range angles {
		p[i] = float64(a)
	}
	for m := 1; m < len(times); m++ {
		for i := 0; i+m < len(times); i++ {
			p[i] = ((t-times[i+m])*p[i] + (times[i]-t)*p[i+1]) / (times[i] - times[i+m])
		}
	}
	return geometry.Angle(p[0])
}

// Rough is a tooth that stands off the smooth curve through its neighbours.
type Rough struct {
	Tooth int            // from 0, the first after the gap
	Off   geometry.Angle // late positive
}

// roughPart is the part of a pitch by which a tooth may stand off: wheels are
// spaced to 0.1-0.3 deg (common practice, no source), and a 60-2 wheel's twelfth
// is 0.5.
const roughPart = 1.0 / 12

// leastTeethToJudge is how many a wheel needs for its neighbours to say where a
// tooth should be, whatever the speed does.
const leastTeethToJudge = 20

// FindRough looks for teeth that stand off on the mean of all turns, the
// worst first, each time without those found before, since a bad tooth bends the
// curve for its neighbours too.
func FindRough(found Turns, w wheel.Wheel) []Rough {
	n := w.Teeth()
	if n < leastTeethToJudge {
		return nil
	}
	rough := map[int]bool{}
	var out []Rough
	for len(out) < n/10 {
		off, _ := offs(found, w, rough)
		worst := 0
		for i := range off {
			if math.Abs(float64(off[i])) > math.Abs(float64(off[worst])) {
				worst = i
			}
		}
		if math.Abs(float64(off[worst])) <= roughPart*float64(w.Pitch()) {
			break
		}
		rough[worst] = true
		out = append(out, Rough{worst, off[worst]})
	}
	return out
}

// judgedWithin is the angle within which neighbours say where a tooth should be,
// whatever the speed does; four pitches do where those are more.
const judgedWithin = 36 * geometry.Degree

// offs is how late each tooth is on the curve through its neighbours, two on
// either side: on the mean of all turns, and its standard deviation from turn to
// turn. It is 0 and NaN for those left out, or with neighbours too far.
func offs(found Turns, w wheel.Wheel, rough map[int]bool) (mean, deviation []geometry.Angle) {
	n := w.Teeth()
	sum, squares, count := make([]float64, n), make([]float64, n), make([]float64, n)
	widest := 1.01 * max(judgedWithin, 4*w.Pitch())
	for _, r := range found.Runs {
		c := NewCurve(r, w, rough)
		tooth := make([]int, 0, len(c.Times))
		for i := range r.Times {
			if !rough[i%n] {
				tooth = append(tooth, i%n)
			}
		}
		for i := 2; i+2 < len(c.Times); i++ {
			if c.Angles[i+2]-c.Angles[i-2] > widest {
				continue
			}
			times := [4]float64{c.Times[i-2], c.Times[i-1], c.Times[i+1], c.Times[i+2]}
			angles := [4]geometry.Angle{c.Angles[i-2], c.Angles[i-1], c.Angles[i+1], c.Angles[i+2]}
			off := float64(neville(times[:], angles[:], c.Times[i]) - c.Angles[i])
			sum[tooth[i]] += off
			squares[tooth[i]] += off * off
			count[tooth[i]]++
		}
	}
	for i := range n {
		m := sum[i] / math.Max(1, count[i])
		mean = append(mean, geometry.Angle(m))
		deviation = append(deviation, geometry.Angle(math.Sqrt(math.Max(0, squares[i]-count[i]*m*m)/(count[i]-1))))
		if count[i] < 2 {
			deviation[i] = geometry.Angle(math.NaN())
		}
	}
	return mean, deviation
}

// Repeat is how well the teeth repeat: the median of their standard deviations from
// turn to turn; NaN when no tooth can be judged.
func Repeat(found Turns, w wheel.Wheel) geometry.Angle {
	_, deviation := offs(found, w, nil)
	var known []float64
	for _, d := range deviation {
		if d == d {
			known = append(known, float64(d))
		}
	}
	if len(known) == 0 {
		return geometry.Angle(math.NaN())
	}
	return geometry.Angle(signal.Median(known))
}
