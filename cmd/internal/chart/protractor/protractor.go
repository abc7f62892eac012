// Package protractor draws part of a degree wheel with a pointer, to be read off by eye.
package protractor

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/chart/draw"
)

// Picture is part of a degree wheel with a pointer: a line each half degree, numbers each
// five. Numbers grow clockwise and begin again at 360.
type Picture struct {
	Title       string // for who listens; it is not drawn
	Description string // it should not tell what the pointer shows
	At          float64
}

// Sizes of a protractor, in its own units: a degree is 11.5 of them, 3 mm where the picture
// is printed 88 mm wide.
const (
	width = 320.0
	span  = 13.0 // degrees either way of its middle
	high  = 108.0
)

// SVG is the protractor as a picture. A place that is no number is an error.
func (p Picture) SVG() ([]byte, error) {
	if !draw.Finite(p.At) {
		return nil, fmt.Errorf("a pointer at %g deg cannot be drawn", p.At)
	}
	w := wheelPart{Canvas: &draw.Canvas{}, middle: 10 * math.Round(p.At/10)}
	w.radius = (width/2 - draw.Margin) / math.Sin(span*math.Pi/180)
	w.centre = draw.At(width/2, 46+w.radius)
	w.scale()
	w.pointer(p.At)
	return w.Whole(width, high, p.Title, p.Description), nil
}

// wheelPart is a protractor laid out, its middle at the top.
type wheelPart struct {
	*draw.Canvas
	centre         draw.Spot
	radius, middle float64
}

// at is the place of an angle of the protractor at a radius beyond the scale's own.
func (w wheelPart) at(degrees, beyond float64) draw.Spot {
	sin, cos := math.Sincos((degrees - w.middle) * math.Pi / 180)
	return draw.At(w.centre.X+(w.radius+beyond)*sin, w.centre.Y-(w.radius+beyond)*cos)
}

// scale draws the rim and its lines: half degrees short, whole ones longer, fives longest
// and with their number.
func (w wheelPart) scale() {
	var rim []draw.Spot
	for half := -2 * span; half <= 2*span; half++ {
		degrees := w.middle + half/2
		rim = append(rim, w.at(degrees, 0))
		long, class := 7.0, "fine"
		switch {
		case math.Mod(degrees, 5) == 0:
			long, class = 18, "mark"
			number := strconv.Itoa(int(math.Mod(degrees+360, 360)))
			w.Words("text strong", "middle", w.at(degrees, long+5), number)
		case math.Mod(degrees, 1) == 0:
			long = 12
		}
		w.Line("axis "+class, w.at(degrees, 0), w.at(degrees, long))
	}
	w.Path("axis", rim, false)
}

// pointer draws a needle from inside whose tip touches the rim.
func (w wheelPart) pointer(at float64) {
	const half = 0.25 // degrees, of the needle where it is broad
	w.Path("text", []draw.Spot{w.at(at, -1), w.at(at-half, -26), w.at(at-half, -48), w.at(at+half, -48), w.at(at+half, -26)}, true)
}
