package curve

import (
	"math"

	"evendrop/tdc/evidence"
)

// Hang is what is known of a piston come over the top, which stays where the rise
// left it until its crank has used up the lash: that is somewhere in a range, mm.
// Inside the range the lowness bends with the lash; the adjustment takes the
// straight line in it that is right on average and leaves least, and counts what
// is left as uncertainty. So a reading there says no more of the lash than it can,
// and the model has a slope everywhere.
type Hang struct {
	least, most float64
}

// NewHang is a hang in the lash that a gauge's job states.
func NewHang(g evidence.Gauge) Hang { return hangWithin(float64(g.Lash), float64(g.LashKnownTo)) }

// HangAbout is a hang in a lash, mm, known as far as joints take up at once, in a range wide
// enough to have a slope.
func HangAbout(lash float64) Hang { return hangWithin(math.Max(0, lash), 0.03) }

// hangWithin is a hang in a lash known to a half-width, mm. Several joints do not take up at
// once, however well their sum is known.
func hangWithin(lash, half float64) Hang {
	half = math.Max(half, lash/8)
	return Hang{math.Max(0, lash-half), lash + half}
}

// About tells whether a hang is about a lash, nearly enough to leave it there.
func (h Hang) About(lash float64) bool {
	return math.Abs(h.least+h.most-2*lash) < (h.most-h.least)/5
}

// low is how low the piston hangs that its crank lets down by drop, measured from
// the middle of the lash, and the derivatives by drop and by lash.
func (h Hang) low(drop, lash float64, falling bool) (low, byDrop, byLash float64) {
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

// Uncertainty is the standard deviation of what the straight line leaves, mm.
func (h Hang) Uncertainty(drop float64, falling bool) float64 {
	if !falling || drop <= h.least || drop >= h.most {
		return 0
	}
	width := h.most - h.least
	share := (drop - h.least) / width
	rest := 1 - share
	return width * math.Sqrt(math.Max(0, rest*rest*rest*(1./3-rest/4)-sq(smooth(share))/12))
}

func sq(x float64) float64 { return x * x }
