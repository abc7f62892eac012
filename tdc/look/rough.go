package look

import (
	"math"

	"evendrop/fit/gum"
)

// Rough is a rough curve through readings, depth = Zero + Scale drop(u), found
// without a start.
type Rough struct {
	TDC         float64 // radians
	Zero, Scale float64 // mm, 1
	Misfit      float64 // mean absolute residual, mm
}

// none is no curve yet.
var none = Rough{Misfit: math.Inf(1)}

// off is how far the scale is from the engine's, in logarithms.
func (r Rough) off() float64 {
	if r.Scale <= 0 {
		return math.Inf(1)
	}
	return math.Abs(math.Log(r.Scale))
}

// line is the least-squares line depth = zero + scale drop, and its mean
// absolute residual; false when the drops do not differ.
func line(drop, depth []float64) (Rough, bool) {
	meanDrop, meanDepth := gum.Mean(drop), gum.Mean(depth)
	var across, along float64
	for i, x := range drop {
		across += (x - meanDrop) * (x - meanDrop)
		along += (x - meanDrop) * (depth[i] - meanDepth)
	}
	if across == 0 {
		return Rough{}, false
	}
	found := Rough{Scale: along / across}
	found.Zero = meanDepth - found.Scale*meanDrop
	for i, x := range drop {
		found.Misfit += math.Abs(depth[i]-found.Zero-found.Scale*x) / float64(len(drop))
	}
	return found, true
}
