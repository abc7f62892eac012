package words

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
)

// Event is a crank angle after TDC as a cam card has it, from the dead centre that is
// nearest: "12 BTDC", "48 ABDC".
func Event(a geometry.Angle) string {
	size, side := event(a, stated)
	return size + " " + side
}

// EventAbout is the same to a degree.
func EventAbout(a geometry.Angle) string { return Event(about(a)) }

// CentreAbout is Centre to a degree.
func CentreAbout(a geometry.Angle) string { return Centre(about(a)) }

// about is an angle to a degree.
func about(a geometry.Angle) geometry.Angle {
	return geometry.Angle(math.Round(a.Degrees())) * geometry.Degree
}

// EventWithin is the same with its uncertainty: "12.0 ± 0.5 BTDC".
func EventWithin(e gum.Estimate) string {
	size, side := event(e.Angle, places(e))
	return size + " ± " + places(e)(e.Expanded) + " " + side
}

// CentreWithin is the same from TDC, however far: "108.0 ± 0.4 ATDC".
func CentreWithin(e gum.Estimate) string {
	size, side := from(e.Angle, "TDC", places(e))
	return size + " ± " + places(e)(e.Expanded) + " " + side
}

// Centre is an angle from TDC, however far: "108 ATDC".
func Centre(a geometry.Angle) string {
	size, side := from(a, "TDC", stated)
	return size + " " + side
}

// stated is the size of an angle as somebody stated it.
func stated(a geometry.Angle) string { return Plain(a.Degrees()) }

// places is the size of an angle as its uncertainty deserves.
func places(e gum.Estimate) func(geometry.Angle) string {
	n := Decimals(e.Expanded.Degrees())
	return func(a geometry.Angle) string { return Fixed(a.Degrees(), n) }
}

// event is an angle's size and side, of the dead centre that is nearest.
func event(a geometry.Angle, size func(geometry.Angle) string) (string, string) {
	halves := math.Round(float64(a / (geometry.Turn / 2)))
	centre := "TDC"
	if math.Mod(halves, 2) != 0 {
		centre = "BDC"
	}
	return from(a-geometry.Angle(halves)*geometry.Turn/2, centre, size)
}

// from is an angle after a dead centre, or before it.
func from(a geometry.Angle, centre string, size func(geometry.Angle) string) (string, string) {
	text := size(geometry.Angle(math.Abs(float64(a))))
	if a < 0 && text != size(0) {
		return text, "B" + centre
	}
	return text, "A" + centre
}
