package bars

import (
	"math"
	"slices"

	"evendrop/cmd/internal/chart/draw"
)

// scale is an axis with zero in its middle. What lies farther than its end is drawn beside
// it, with an arrow.
type scale struct {
	end, step   float64 // in what is counted
	left, right float64 // of the picture, where the ends are
}

// Room beside a scale: for half a sign, and for an arrow with its number.
const (
	endRoom = 10.0
	farRoom = 72.0
)

// mostTimes is how many times farther off than what is allowed, or than most are, something
// may be before it is left beside the scale: within it a limit's box is at least 30 units
// wide, and what is inside can still be told from what is not.
const mostTimes = 10

// mostSteps is how many steps of a wide scale its end is away from zero at most.
const mostSteps = 4

// newScale lays out a scale for bars.
func newScale(bars []Bar) scale {
	s := sized(farthest(bars), mostSteps)
	s.left, s.right = draw.Margin+endRoom, width-draw.Margin-endRoom
	for _, m := range all(bars) {
		if s.far(m.At) && m.At < 0 {
			s.left = draw.Margin + farRoom
		} else if s.far(m.At) {
			s.right = width - draw.Margin - farRoom
		}
	}
	return s
}

// sized is a scale that reaches to a value and half a step beyond at most, with so many
// steps either way at most.
func sized(reach float64, steps float64) scale {
	if !(reach > 0) {
		reach = 1
	}
	s := scale{step: step(reach / steps)}
	s.end = math.Ceil(2*reach/s.step-rounding) * s.step / 2
	return s
}

// rounding is the part of a step within which an end is on a tick: far more than the
// roundings of a division, far less than can be seen.
const rounding = 1e-6

// step is the least of 1, 2 and 5 and zeros that is no less than a value.
func step(least float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(least)+rounding))
	for _, times := range []float64{1, 2, 5} {
		if times*ten >= least*(1-rounding) {
			return times * ten
		}
	}
	return 10 * ten
}

// all is every measurement of bars.
func all(bars []Bar) (list []Measured) {
	for _, b := range bars {
		list = append(list, b.Measured)
		if b.Was != nil {
			list = append(list, b.Was.Measured)
		}
	}
	return list
}

// farthest is how far a scale has to reach: to every limit and every measurement, but for
// those that are so much farther off than the others that these could not be told from zero.
func farthest(bars []Bar) float64 {
	var limits, reaches []float64
	for _, b := range bars {
		if b.LimitFrom != b.LimitTo {
			limits = append(limits, math.Max(math.Abs(b.LimitFrom), math.Abs(b.LimitTo)))
		}
	}
	for _, m := range all(bars) {
		reaches = append(reaches, max(math.Abs(m.At), math.Abs(m.From), math.Abs(m.To)))
	}
	slices.Sort(reaches)
	usual := reaches[(len(reaches)-1)/2]
	if len(limits) > 0 {
		slices.Sort(limits)
		usual = lastWithin(mostTimes*limits[0], limits)
	}
	return math.Max(usual, lastWithin(mostTimes*usual, reaches))
}

// lastWithin is the greatest of sorted values that is no more than another; zero where none is.
func lastWithin(most float64, sorted []float64) (value float64) {
	for _, v := range sorted {
		if v <= most {
			value = v
		}
	}
	return value
}

func (s scale) far(value float64) bool { return math.Abs(value) > s.end*(1+rounding) }

func (s scale) zero() float64 { return (s.left + s.right) / 2 }

// at is where a value is drawn, one beyond the end at the end.
func (s scale) at(value float64) float64 {
	part := math.Max(-1, math.Min(1, value/s.end))
	return s.zero() + part*(s.right-s.left)/2
}

// ticks is the values that have a number.
func (s scale) ticks() (list []float64) {
	most := math.Floor(s.end/s.step + rounding)
	for n := -most; n <= most; n++ {
		list = append(list, n*s.step)
	}
	return list
}

// places is how many decimals the ticks need.
func (s scale) places() int { return max(0, -int(math.Floor(math.Log10(s.step)+rounding))) }
