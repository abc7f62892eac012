package signal

import (
	"math"
	"slices"
)

// Median is the middle one, the upper of two; +Inf of none.
func Median(xs []float64) float64 {
	if len(xs) == 0 {
		return math.Inf(1)
	}
	sorted := slices.Sorted(slices.Values(xs))
	return sorted[len(sorted)/2]
}
