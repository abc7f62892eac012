package look

import (
	"errors"
	"math"

	"evendrop/geometry"
)

// ErrBottom is what is said of readings taken about bottom dead centre.
var ErrBottom = errors.New("the piston is at its lowest, not its highest, among these readings: they show BDC; " +
	"turn the crank half a turn and read there")

// errEitherEnd is said when the readings turn the wrong way and no dimension
// tells which end they were taken at.
var errEitherEnd = errors.New("as typed, the piston is at its lowest among these readings. If the gauge's numbers grow as the " +
	"piston comes up, say so (counts = \"up\" under [gauge]). If not, this is BDC: turn the crank half a turn and read there")

// Fewest is how many readings can tell TDC, with nothing left over to show a bad one.
const Fewest = 3

// Opening is the rough curve to start an adjustment from.
type Opening struct {
	Rough
	Turned      bool  // the gauge counts the other way than stated: the curve is of the depths turned round
	AsTyped     Rough // where Turned, the curve about TDC of the depths as they are
	MaybeBottom bool  // the curve at BDC, of depths turned round, fits the engine better
}

// Open finds the rough curve; known tells that the engine's stroke is. Readings taken
// about BDC are an error. What tells BDC from TDC with a gauge that counts the other
// way is how sharply the piston turns round: the curve at BDC is flatter, by
// (l - r)/(l + r).
func Open(crank geometry.SliderCrank, known bool, angle, depth []float64) (Opening, error) {
	l := All(crank, angle, depth)
	if math.IsInf(math.Min(l.Top.Misfit, l.bottom.Misfit), 1) {
		return Opening{}, errors.New("the depths do not change: read the piston on both sides of TDC, well down its flanks")
	}
	if l.bottom.Misfit < l.Top.Misfit/2 { // a lowest point among the readings, as typed
		switch {
		case !known:
			return Opening{}, errEitherEnd
		case l.turnedTop.off() < l.bottom.off():
			return Opening{Rough: l.turnedTop, Turned: true, AsTyped: l.Top}, nil
		}
		return Opening{}, ErrBottom
	}
	maybeBottom := known && l.turnedBottom.Misfit < 2*l.Top.Misfit && l.turnedBottom.off() < 0.15 && l.Top.off() > 0.4
	return Opening{Rough: l.Top, MaybeBottom: maybeBottom}, nil
}
