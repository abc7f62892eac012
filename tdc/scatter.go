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
// at every excess would make a clean job's 95 % interval hold 97 %; never
// widening below a strict test would leave six readings of twice the stated
// scatter at 90 %. At one in five, clean jobs stay at or below 96 % and those
// above 93 %, whatever the number of readings.
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
