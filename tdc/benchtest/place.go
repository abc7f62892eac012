package benchtest

import (
	"math"
	"slices"

	"evendrop/tdc/evidence"
)

// Place is where the crank is stopped to be read, radians from TDC.
type Place struct {
	U    float64
	Turn evidence.TurnDirection
}

// Depths is what a perfect gauge would show at each place, the crank going
// through them in order. The piston lags by half the lash, and on reversing it
// stays where it is until the crank has used up all of it. A sweep starts so far
// out that the lash is taken up.
func (b Bench) Depths(places []Place) []float64 {
	var shown []float64
	low := 0.0 // how far below the highest point the piston is
	for i, p := range places {
		drop := b.Drop(p.U)
		first := i == 0 || places[i-1].Turn != p.Turn
		switch {
		case first && p.U*float64(p.Turn) < 0: // rising
			low = drop + b.Lash/2
		case first || places[i-1].U*p.U < 0: // come over the top
			low = b.Lash / 2
		}
		low = math.Max(drop-b.Lash/2, math.Min(drop+b.Lash/2, low))
		shown = append(shown, b.Zero+b.Gauge*low)
	}
	return shown
}

// Smooth is the depth with the lash taken up, however near TDC.
func (b Bench) Smooth(at Place) float64 {
	side := math.Copysign(1, at.U*float64(at.Turn))
	return b.Zero + b.Gauge*(b.Drop(at.U)-side*b.Lash/2)
}

// InOrder is a sweep's places as the crank comes to them.
func InOrder(sweep []Place) []Place {
	slices.SortStableFunc(sweep, func(x, y Place) int {
		return int(math.Copysign(1, (x.U-y.U)*float64(x.Turn)))
	})
	return sweep
}
