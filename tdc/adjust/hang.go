package adjust

import (
	"math"

	"evendrop/tdc/evidence"
)

// hang is what is known of a piston come over the top, which stays where the rise
// left it until its crank has used up the lash: that is somewhere in a range, mm.
// Inside the range the lowness bends with the lash; the adjustment takes the
// straight line in it that is right on average and leaves least, and counts what
// is left as uncertainty. So a reading there says no more of the lash than it can,
// and the model has a slope everywhere.
type hang struct {
	least, most float64
}

func newHang(g evidence.Gauge) hang {
	lash, half := float64(g.Lash), float64(g.LashKnownTo)
	// several joints do not take up at once, however well their sum is known
	half = math.Max(half, lash/8)
	return hang{math.Max(0, lash-half), lash + half}
}

// low is how low the piston hangs that its crank lets down by drop, measured from
// the middle of the lash, and the derivatives by drop and by lash.
func (h hang) low(drop, lash float64, falling bool) (low, byDrop, byLash float64) {
	switch {
	case !falling:
		return drop + lash/2, 1, 0.5
	case drop >= h.most:
		return drop - lash/2, 1, -0.5
	case drop <= h.least:
		return lash / 2, 0, 0.5
	}
	width := h.most - h.least
	share := (drop - h.least) / width // of the range that lies below the drop
	pull := smooth(share)
	off := (lash-h.least)/width - 0.5
	low = drop - lash/2 + width*(sq(1-share)/2+pull*off)
	return low, share - 6*share*(1-share)*off, pull - 0.5
}

// smooth is the slope of max(0, x - share) against x, regressed over x evenly
// spread from 0 to 1.
func smooth(share float64) float64 { return sq(1-share) * (1 + 2*share) }

// uncertainty is the standard deviation of what the straight line leaves, mm.
func (h hang) uncertainty(drop float64, falling bool) float64 {
	if !falling || drop <= h.least || drop >= h.most {
		return 0
	}
	width := h.most - h.least
	share := (drop - h.least) / width
	rest := 1 - share
	return width * math.Sqrt(math.Max(0, rest*rest*rest*(1./3-rest/4)-sq(smooth(share))/12))
}
