package solve

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
func (a *Solved) UnlikelyTop() bool {
	fine := 0
	notSuspect := func(i int) bool {
		if !a.Suspect[i] {
			fine++
		}
		return !a.Suspect[i]
	}
	whole, priors := a.Best.ChiSquare(notSuspect), a.Best.ChiSquare(func(int) bool { return false })
	degrees := float64(a.Best.DegreesOfFreedom() - len(a.Depth) + fine)
	if 4*fine < 3*len(a.Depth) || degrees < 1 {
		return true
	}
	return distuv.ChiSquared{K: degrees}.Survival((whole-priors)/sq(a.Scatter)+priors) < bottomChance
}

// Rival is an error where TDC lies beyond all the readings and another place far
// from it fits them about as well.
func (a *Solved) Rival() error {
	n, found := len(a.Read), a.Best.Beta[curve.TDC]
	if len(a.Pairs) > 0 {
		return nil
	}
	w := look.Weighted{
		Crank: a.Crank, Angle: a.Angle[:n], Depth: a.Depth[:n], SigmaX: a.SigmaX[:n], SigmaY: a.SigmaY[:n],
		ScaleSigma: a.Priors[curve.Scale].Sigma,
	}
	place, ok := w.Rival(found)
	if !ok {
		return nil
	}
	shown := func(beta float64) float64 {
		return a.Setup.Protractor.Shows(geometry.Angle(a.Centre + beta).Signed()).Degrees()
	}
	return fmt.Errorf("the readings fit TDC near %.0f deg about as well as near %.0f: take some well down the other flank, or with a finer gauge",
		shown(place), shown(found))
}
