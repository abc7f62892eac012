package tdc

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// errBottom is what is said of readings taken about bottom dead centre.
var errBottom = errors.New("the piston is at its lowest, not its highest, amid these readings: they tell BDC; " +
	"turn the crank half a turn and read there")

// errEitherEnd is said when the readings turn the wrong way and no dimension
// tells which end they were taken at.
var errEitherEnd = errors.New("as typed, the piston is at its lowest amid these readings: if the gauge's numbers grow as the " +
	"piston comes up, say so (counts = \"up\" under [gauge], or --gauge-counts up); if not, this is BDC: turn half a turn and read there")

// opening is the rough curve to start the adjustment from.
type opening struct {
	firstLook
	turned      bool // the gauge counts the other way than stated: the curve is of the depths turned round
	maybeBottom bool // the curve at BDC, of depths turned round, fits the engine better
}

// open finds the rough curve. Readings taken about BDC are an error. What tells
// BDC from TDC with a gauge that counts the other way is how sharply the piston
// turns round: the curve at BDC is flatter, by (l - r)/(l + r).
func open(crank geometry.SliderCrank, assumed evidence.Assumed, read []evidence.Reading) (opening, error) {
	angle, depth := columns(read)
	l := look(crank, angle, depth)
	if math.IsInf(math.Min(l.top.misfit, l.bottom.misfit), 1) {
		return opening{}, errors.New("the depths do not change: read the piston on both sides of TDC, well down its flanks")
	}
	known := assumed.Stroke == 0
	if l.bottom.misfit < l.top.misfit/2 { // a lowest point amid the readings, as typed
		switch {
		case !known:
			return opening{}, errEitherEnd
		case off(l.turnedTop) < off(l.bottom):
			return opening{firstLook: l.turnedTop, turned: true}, nil
		}
		return opening{}, errBottom
	}
	maybeBottom := known && l.turnedBottom.misfit < 2*l.top.misfit && off(l.turnedBottom) < 0.15 && off(l.top) > 0.4
	return opening{firstLook: l.top, maybeBottom: maybeBottom}, nil
}

// bottomChance is how unlikely the readings must be at TDC to be called BDC.
const bottomChance = 0.001

// unlikelyTop tells whether readings that scatter as these do, the stated ranges
// and a few mistyped readings can hardly be of a piston about TDC.
func (a *adjustment) unlikelyTop() bool {
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

// off is how far a rough curve's scale is from the engine's, in logarithms.
func off(f firstLook) float64 {
	if f.scale <= 0 {
		return math.Inf(1)
	}
	return math.Abs(math.Log(f.scale))
}
