package adjust

import (
	"fmt"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/look"
)

// bottomChance is how unlikely the readings must be at TDC to be called BDC.
const bottomChance = 0.001

// UnlikelyTop tells whether readings that scatter as these do, the stated ranges
// and a few mistyped readings can hardly be of a piston about TDC.
func (a *Adjustment) UnlikelyTop() bool {
	fine := 0
	notSuspect := func(i int) bool {
		if !a.suspect[i] {
			fine++
		}
		return !a.suspect[i]
	}
	whole, priors := a.best.ChiSquare(notSuspect), a.best.ChiSquare(func(int) bool { return false })
	degrees := float64(a.best.DegreesOfFreedom() - len(a.depth) + fine)
	if 4*fine < 3*len(a.depth) || degrees < 1 {
		return true
	}
	return distuv.ChiSquared{K: degrees}.Survival((whole-priors)/sq(a.scatter)+priors) < bottomChance
}

// Rival is an error where TDC lies beyond all the readings and another place far
// from it fits them about as well.
func (a *Adjustment) Rival() error {
	n, found := len(a.read), a.best.Beta[curve.TDC]
	if len(a.pairs) > 0 {
		return nil
	}
	w := look.Weighted{
		Crank: a.crank, Angle: a.angle[:n], Depth: a.depth[:n], SigmaX: a.sigmaX[:n], SigmaY: a.sigmaY[:n],
		ScaleSigma: a.priors[curve.Scale].Sigma,
	}
	place, ok := w.Rival(found)
	if !ok {
		return nil
	}
	shown := func(beta float64) float64 {
		return a.setup.Protractor.Shows(geometry.Angle(a.centre + beta).Signed()).Degrees()
	}
	return fmt.Errorf("the readings fit TDC near %.0f deg about as well as near %.0f: take some well down the other flank, or with a finer gauge",
		shown(place), shown(found))
}
