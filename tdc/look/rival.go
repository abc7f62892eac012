package look

import (
	"math"

	"evendrop/geometry"
)

// Readings of one flank, as they seem, may be of both about another TDC: few and
// coarse ones often are. An adjustment knows only the place it settled in, so
// where TDC lies beyond all readings the rest of the turn is searched.
const (
	rivalFrom   = 15 * math.Pi / 180 // from the TDC found; nearer it is the same place
	rivalChance = 6                  // of chi-square, by which a rival may fit worse: one in forty, by the normal distribution
)

// Weighted is readings with their standard uncertainties, radians and mm.
type Weighted struct {
	Crank          geometry.SliderCrank
	Angle, Depth   []float64
	SigmaX, SigmaY []float64
	ScaleSigma     float64 // of the curve's scale about 1; +Inf where nothing is known
}

// Rival is another place that fits about as well as the TDC found, where that lies
// beyond all the readings; false where there is none.
func (w Weighted) Rival(found float64) (place float64, ok bool) {
	before, after := 0, 0
	for _, angle := range w.Angle {
		if angle < found {
			before++
		} else {
			after++
		}
	}
	if before > 0 && after > 0 || before+after == 0 {
		return 0, false
	}
	own, best := math.Inf(1), math.Inf(1)
	try := func(tdc float64) {
		chiSquare := w.chiSquare(tdc)
		if math.Abs(tdc-found) < rivalFrom {
			own = math.Min(own, chiSquare)
		} else if chiSquare < best {
			best, place = chiSquare, tdc
		}
	}
	round(found, try, func() []Rough { return nil })
	return place, best <= own+rivalChance
}

// chiSquare is that of the readings, and of the scale against what is known of it,
// with TDC at an angle and the zero and scale that suit best.
func (w Weighted) chiSquare(tdc float64) float64 {
	var sum, wx, wy, wxx, wxy, wyy, near float64
	for i := range w.Angle {
		u := geometry.Angle(w.Angle[i] - tdc)
		drop, slope, _ := w.Crank.Motion(u)
		weight := 1 / (sq(w.SigmaY[i]) + sq(float64(slope)*w.SigmaX[i]))
		x, y := float64(drop), w.Depth[i]
		sum, wx, wy = sum+weight, wx+weight*x, wy+weight*y
		wxx, wxy, wyy = wxx+weight*x*x, wxy+weight*x*y, wyy+weight*y*y
		near += math.Cos(float64(u))
	}
	xx, xy, yy := wxx-wx*wx/sum, wxy-wx*wy/sum, wyy-wy*wy/sum
	known := 1 / sq(w.ScaleSigma) // zero when nothing is known
	scale := (xy + known) / (xx + known)
	if near < 0 || scale <= 0 {
		return math.Inf(1) // about BDC, or upside down
	}
	return yy - 2*scale*xy + scale*scale*xx + known*sq(scale-1)
}

func sq(x float64) float64 { return x * x }
