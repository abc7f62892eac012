package tdc

import (
	"fmt"
	"math"

	"evendrop/geometry"
)

// Readings of one flank, as they seem, may be of both about another TDC: few and
// coarse ones often are. The adjustment knows only the place it settled in, so
// where TDC lies beyond all readings the rest of the turn is searched.
const (
	rivalFrom   = 15 * math.Pi / 180 // from the TDC found; nearer it is the same place
	rivalChance = 6                  // of chi-square, by which a rival may fit worse: one in forty, by the normal distribution
)

// rival is an error where TDC lies beyond all the readings and another place far
// from it fits them about as well.
func (a *adjustment) rival() error {
	found := a.best.Beta[parTDC]
	before, after := 0, 0
	for i := range a.read {
		if a.angle[i] < found {
			before++
		} else {
			after++
		}
	}
	if len(a.read) == 0 || len(a.pairs) > 0 || before > 0 && after > 0 {
		return nil
	}
	own, best, place := math.Inf(1), math.Inf(1), 0.0
	for away := -math.Pi; away < math.Pi; away += lookStep {
		chiSquare := a.fitsAt(found + away)
		if math.Abs(away) < rivalFrom {
			own = math.Min(own, chiSquare)
		} else if chiSquare < best {
			best, place = chiSquare, found+away
		}
	}
	if best > own+rivalChance {
		return nil
	}
	shown := func(beta float64) float64 {
		return a.setup.Protractor.Shows(geometry.Angle(a.centre + beta).Signed()).Degrees()
	}
	return fmt.Errorf("the readings fit TDC near %.0f deg about as well as near %.0f: take some well down the other flank, or with a finer gauge",
		shown(place), shown(found))
}

// fitsAt is the chi-square of the readings, and of the scale against what is known
// of it, with TDC at an angle and the zero and scale that suit best.
func (a *adjustment) fitsAt(tdc float64) float64 {
	var w, wx, wy, wxx, wxy, wyy, near float64
	for i := range a.read {
		u := geometry.Angle(a.angle[i] - tdc)
		drop, slope, _ := a.crank.Motion(u)
		weight := 1 / (sq(a.sigmaY[i]) + sq(float64(slope)*a.sigmaX[i]))
		x, y := float64(drop), a.depth[i]
		w, wx, wy = w+weight, wx+weight*x, wy+weight*y
		wxx, wxy, wyy = wxx+weight*x*x, wxy+weight*x*y, wyy+weight*y*y
		near += math.Cos(float64(u))
	}
	xx, xy, yy := wxx-wx*wx/w, wxy-wx*wy/w, wyy-wy*wy/w
	known := 1 / sq(a.priors[parScale].Sigma) // nought when nothing is known
	scale := (xy + known) / (xx + known)
	if near < 0 || scale <= 0 {
		return math.Inf(1) // about BDC, or upside down
	}
	return yy - 2*scale*xy + scale*scale*xx + known*sq(scale-1)
}
