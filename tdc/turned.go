package tdc

import (
	"errors"
	"math"

	"evendrop/geometry"
)

// errBottom is what is said of readings taken about bottom dead centre.
var errBottom = errors.New("the piston is at its lowest, not its highest, amid these readings: they tell BDC; " +
	"turn the crank half a turn and read there")

// errEitherEnd is said when the readings turn the wrong way and no dimension
// tells which end they were taken at.
var errEitherEnd = errors.New("as typed, the piston is at its lowest amid these readings: if the gauge's numbers grow as the " +
	"piston comes up, say so (counts = \"up\" under [gauge], or --gauge-counts up); if not, this is BDC: turn half a turn and read there")

// turnedRound tells whether the readings are of TDC with a gauge that counts the
// other way than stated. Readings taken about BDC are an error. What tells the
// two apart is how sharply the piston turns round: the curve at BDC is flatter,
// by (l - r)/(l + r).
func turnedRound(crank geometry.SliderCrank, assumed Assumed, read []Reading) (bool, error) {
	angle, depth := columns(read)
	other := make([]float64, len(depth))
	for i, d := range depth {
		other[i] = -d
	}
	top, bottom := look(crank, angle, depth)
	turnedTop, turnedBottom := look(crank, angle, other)
	if math.IsInf(math.Min(top.misfit, bottom.misfit), 1) {
		return false, errors.New("the depths do not change: read the piston on both sides of TDC, well down its flanks")
	}
	known := assumed.Stroke == 0
	if bottom.misfit < top.misfit/2 { // a lowest point amid the readings, as typed
		switch {
		case !known:
			return false, errEitherEnd
		case off(turnedTop) < off(bottom):
			return true, nil
		}
		return false, errBottom
	}
	if known && turnedBottom.misfit < 2*top.misfit && off(turnedBottom) < 0.15 && off(top) > 0.4 {
		return false, errBottom
	}
	return false, nil
}

// off is how far a rough curve's scale is from the engine's, in logarithms.
func off(f firstLook) float64 {
	if f.scale <= 0 {
		return math.Inf(1)
	}
	return math.Abs(math.Log(f.scale))
}
