package mark

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// What offset an engine may have when nobody said: what moves TDC by more than a
// third of a degree in a car's engine, up to some 15 % of the stroke of the bore,
// and a piston pin by no more than 2 mm (common practice, no source).
const (
	leastOffset     = 1 * geometry.Millimetre
	mostPinOffset   = 2 * geometry.Millimetre
	mostBoreOffset  = 15 * geometry.Millimetre
	mostOffsetShare = 0.15
)

// offsetBehind is the offset that makes a mark compared with the crank as far off as
// it is, if one does.
func offsetBehind(setup evidence.Setup, f Judged) (made finding.OffsetMakes, makes bool) {
	if f.Healthy != nil || f.Lobe != nil || f.Unknown || f.Reference() != Crank || math.Abs(float64(f.Angle)) <= float64(f.Expanded) {
		return made, false
	}
	shift := f.Angle
	if f.Zero == Throw {
		shift = -shift
	}
	offset, makes := OffsetMakes(setup, shift, f.Expanded, f.Zero == Throw)
	return finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: f.Name, Off: f.Angle}}, Offset: offset, Stated: setup.Engine.OffsetStated}, makes
}

// OffsetMakes is the offset that would shift marks which count from the piston's TDC
// by asin(e/(l+r)), late positive; false when none that is plausible would. A mark
// that sits at throw-along-bore comes that much before TDC. One that was taken to sit
// there can only be put right by the offset that was stated.
func OffsetMakes(setup evidence.Setup, shift, expanded geometry.Angle, fromThrow bool) (offset geometry.Length, makes bool) {
	toTDC, _, err := setup.ThrowToTDC()
	if err != nil {
		return 0, false
	}
	if stated := setup.Engine.OffsetStated; stated || fromThrow {
		miss := math.Abs(float64(shift + toTDC))
		return setup.Engine.Offset(), stated && miss <= float64(expanded) && math.Abs(float64(toTDC)) > float64(expanded)
	}
	offset = -reach(setup) * geometry.Length(math.Sin(float64(shift)))
	return offset, geometry.Length(math.Abs(float64(offset))) >= leastOffset && plausible(setup, offset) && math.Abs(float64(shift)) <= float64(geometry.Turn/4)
}

// plausible tells whether some engine has such an offset: a bore is offset so that
// TDC comes late, and only a pin the other way.
func plausible(setup evidence.Setup, offset geometry.Length) bool {
	most := mostBoreOffset
	if setup.Engine.Stroke > 0 {
		most = min(most, mostOffsetShare*setup.Engine.Stroke)
	}
	return offset >= -mostPinOffset && offset <= most
}

// reach is throw and rod together, by the TDC that an offset of 1 mm would make.
func reach(setup evidence.Setup) geometry.Length {
	setup.Engine.BoreOffset, setup.Engine.PinOffset = geometry.Millimetre, 0
	toTDC, _, err := setup.ThrowToTDC()
	if err != nil {
		return 0
	}
	return geometry.Millimetre / geometry.Length(math.Sin(float64(toTDC)))
}
