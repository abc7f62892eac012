package gum

import (
	"math"
	"slices"

	"evendrop/geometry"
)

// Repeated is the mean of repeats of one angle, averaged about the first, and what
// rounding and scatter leave of it. Repeats that lie within a step of one another
// are one angle rounded, by the same each time; others say by their scatter what
// they are worth.
func Repeated(read []geometry.Angle, step geometry.Angle) (geometry.Angle, Component) {
	n := float64(len(read))
	var mean, least, most, square geometry.Angle
	for _, angle := range read {
		off := (angle - read[0]).Signed()
		least, most = min(least, off), max(most, off)
		mean += off / geometry.Angle(n)
	}
	for _, angle := range read {
		off := (angle - read[0]).Signed() - mean
		square += off * off
	}
	component := Component{float64(step) / math.Sqrt(12), math.Inf(1)}
	const rounding = 1e-9 // of the angles' own digits
	if most-least > step+rounding {
		component = Component{math.Sqrt(float64(square) / (n - 1) / n), n - 1}
	}
	return read[0] + mean, component
}

// Mean is the arithmetic mean.
func Mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// Median sorts the values and is the middle one.
func Median(values []float64) float64 {
	slices.Sort(values)
	n := len(values)
	return (values[(n-1)/2] + values[n/2]) / 2
}
