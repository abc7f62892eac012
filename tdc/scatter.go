package tdc

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// widening is what scatter beyond the instruments does to the part of the
// uncertainty that the readings make.
type widening struct {
	factor  float64 // Birge's ratio, or 1
	degrees float64 // of freedom behind it; +Inf when the instruments explain the scatter
}

// byChance is the probability above which scatter is put down to chance. Widening
// at every excess would make a clean job's 95 % interval hold more than it says;
// a strict test would leave scatter beyond the instruments unseen. One in five is
// a compromise that falls short for short jobs: with twice the stated scatter,
// simulated intervals held the truth in 93-95 % of jobs of 24 readings, 90-93 %
// of 12, 89-92 % of 8 and 87-88 % of 6.
const byChance = 0.2

// birge is the widening for a chi-square, by Birge's ratio: it never narrows.
func birge(chiSquare float64, degrees int) widening {
	none := widening{factor: 1, degrees: math.Inf(1)}
	if degrees < 1 {
		return none
	}
	if (distuv.ChiSquared{K: float64(degrees)}).Survival(chiSquare) >= byChance {
		return none
	}
	return widening{factor: math.Max(1, math.Sqrt(chiSquare/float64(degrees))), degrees: float64(degrees)}
}
