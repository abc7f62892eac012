package draw

import (
	"fmt"
	"hash/fnv"
	"math"
)

// Arc is a part of a circle between two directions, in degrees clockwise from the top.
type Arc struct {
	Centre   Spot
	Radius   float64
	From, To float64
}

// Polar is the spot at so many degrees clockwise from the top and a radius about a centre.
func Polar(centre Spot, degrees, radius float64) Spot {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return Spot{centre.X + radius*sin, centre.Y - radius*cos}
}

// Degrees is what a length along a circle spans.
func Degrees(length, radius float64) float64 { return length / radius * 180 / math.Pi }

// WordsAlong writes text along an arc, its start, middle or end (the anchor) at that of the
// arc. The arc is named by what it is, so that pictures on one page may share it; it has no ink.
func (d *Canvas) WordsAlong(class, anchor string, a Arc, text string) {
	var o Outline
	path := o.Arc(a).path.String()
	hash := fnv.New32a()
	hash.Write([]byte(path))
	offset := map[string]string{"middle": ` startOffset="50%"`, "end": ` startOffset="100%"`}[anchor]
	fmt.Fprintf(&d.body, `<path id="arc%x" d="%s"/>`+"\n", hash.Sum32(), path)
	fmt.Fprintf(&d.body, `<text class="%s" text-anchor="%s"><textPath href="#arc%x"%s>%s</textPath></text>`+"\n",
		class, anchor, hash.Sum32(), offset, escaped(text))
}

// Turn begins a part of the picture that is turned clockwise about a spot; EndGroup ends it.
func (d *Canvas) Turn(degrees float64, about Spot) {
	fmt.Fprintf(&d.body, `<g transform="rotate(%s %s %s)">`+"\n", number(degrees), number(about.X), number(about.Y))
}
