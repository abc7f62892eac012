package mark

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// What offset an engine may have when nobody said: what moves TDC by more than a
// third of a degree in a car's engine, up to some 15 % of the stroke of the bore,
// and a piston pin by no more than 2 mm (common practice, no source).
const (
	leastOffset     = 1 * geometry.Millimetre
	mostPinOffset   = 2 * geometry.Millimetre
	mostBoreOffset  = 15 * geometry.Millimetre
	mostOffsetShare = 0.15
	offsetAsk       = " between the piston's TDC and the throw lying along the bore: ask which of them its nominal angle counts from"
)

// offsetNote says when a mark held against the crank is off by what an offset
// makes of TDC, asin(e/(l+r)); empty otherwise.
func offsetNote(setup evidence.Setup, f Judged) string {
	if f.Healthy != nil || f.Unknown || f.Reference() != Crank || math.Abs(float64(f.Angle)) <= float64(f.Expanded) {
		return ""
	}
	shift := f.Angle
	if f.Zero == Throw {
		shift = -shift
	}
	text := OffsetMakes(setup, shift, f.Expanded, f.Zero == Throw)
	if text == "" {
		return ""
	}
	return fmt.Sprintf("Off by %s deg, %s.", tenths(f.Angle), text)
}

// offsetMakes tells of a shift of marks that count from the piston's TDC, late
// positive, which offset would make it; empty when none that is plausible would.
// A mark that sits at throw-along-bore comes asin(e/(l+r)) before TDC. One that
// was taken to sit there can only be put right by the offset that was stated.
func OffsetMakes(setup evidence.Setup, shift, expanded geometry.Angle, fromThrow bool) string {
	toTDC, _, err := setup.ThrowToTDC()
	if err != nil {
		return ""
	}
	if stated := setup.Engine.OffsetStated; stated || fromThrow {
		miss := math.Abs(float64(shift + toTDC))
		if !stated || miss > float64(expanded) || math.Abs(float64(toTDC)) <= float64(expanded) {
			return ""
		}
		return fmt.Sprintf("which is what the engine's offset of %s mm makes", plain(setup.Engine.Offset().Millimetres())) + offsetAsk
	}
	offset := -reach(setup) * geometry.Length(math.Sin(float64(shift)))
	if geometry.Length(math.Abs(float64(offset))) < leastOffset || !plausible(setup, offset) || math.Abs(float64(shift)) > float64(geometry.Turn/4) {
		return ""
	}
	return fmt.Sprintf("which is what an offset of %.0f mm makes", offset.Millimetres()) + offsetAsk
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
