package curve

import (
	"math"
	"testing"

	"evendrop/tdc/evidence"

	"github.com/stretchr/testify/require"
)

// The straight line that a piston in its lash is given is the regression, over a
// lash evenly spread through its range, of where such a piston truly hangs; what
// is left of it is the uncertainty. Held against sums over the range.
func TestHangIsTheRegression(t *testing.T) {
	h := Hang{0.02, 0.1}
	for _, drop := range []float64{0, 0.01, 0.02, 0.03, 0.06, 0.08, 0.0999, 0.1, 0.2} {
		const n = 20000
		var x, y, xx, xy, yy float64
		for i := range n {
			lash := h.least + (h.most-h.least)*(float64(i)+0.5)/n
			low := math.Max(drop-lash/2, lash/2) // hung up until the crank has used the lash
			x, y, xx, xy, yy = x+lash/n, y+low/n, xx+lash*lash/n, xy+lash*low/n, yy+low*low/n
		}
		slope := (xy - x*y) / (xx - x*x)
		rest := math.Sqrt(math.Max(0, yy-y*y-slope*slope*(xx-x*x)))
		for _, lash := range []float64{0, 0.05, 0.15} {
			low, _, byLash := h.low(drop, lash, true)
			// sums of 20,000 steps are good to a few 1e-9 of the range
			require.InDelta(t, y+slope*(lash-x), low, 1e-8, "drop %v lash %v", drop, lash)
			require.InDelta(t, slope, byLash, 1e-6)
		}
		require.InDelta(t, rest, h.Uncertainty(drop, true), 1e-7)
	}
}

// The slope by drop is the derivative, the curve has no jump at TDC or where the
// range begins and ends, and a rising piston hangs nowhere.
func TestHangHasNoJump(t *testing.T) {
	h := Hang{0.02, 0.1}
	for _, lash := range []float64{-0.02, 0, 0.05, 0.15} {
		for _, drop := range []float64{0.001, 0.019, 0.021, 0.05, 0.07, 0.099, 0.101, 0.3} {
			const d = 1e-6
			up, _, _ := h.low(drop+d, lash, true)
			down, _, _ := h.low(drop-d, lash, true)
			_, byDrop, _ := h.low(drop, lash, true)
			require.InDelta(t, (up-down)/(2*d), byDrop, 1e-6) // the curvature is 100 per mm at most
		}
		for _, edge := range []float64{h.least, h.most} {
			before, _, _ := h.low(edge-1e-12, lash, true)
			after, _, _ := h.low(edge+1e-12, lash, true)
			require.InDelta(t, before, after, 1e-11)
		}
		falling, _, _ := h.low(0, lash, true)
		rising, _, _ := h.low(0, lash, false)
		require.InDelta(t, rising, falling, 1e-15)
		require.Zero(t, h.Uncertainty(0.05, false))
	}
}

// A lash known to be nought leaves the drop alone.
func TestNoLashNoHang(t *testing.T) {
	h := NewHang(evidence.Gauge{})
	for _, drop := range []float64{0, 0.001, 1} {
		low, byDrop, _ := h.low(drop, 0, true)
		require.Equal(t, drop, low)
		require.Equal(t, 1., byDrop)
		require.Zero(t, h.Uncertainty(drop, true))
	}
}
