package draw

import (
	"fmt"
	"math"
	"strings"
)

// Outline is a line under way, of straight parts, arcs and bends.
type Outline struct{ path strings.Builder }

// Line goes straight to a spot, or begins there.
func (o *Outline) Line(to Spot) *Outline {
	letter := "L"
	if o.path.Len() == 0 {
		letter = "M"
	}
	o.path.WriteString(letter + number(to.X) + " " + number(to.Y))
	return o
}

// Arc goes straight to where an arc begins, and along it.
func (o *Outline) Arc(a Arc) *Outline {
	o.Line(Polar(a.Centre, a.From, a.Radius))
	end, r := Polar(a.Centre, a.To, a.Radius), number(a.Radius)
	large, clockwise := 0, 0
	if math.Abs(a.To-a.From) > 180 {
		large = 1
	}
	if a.To > a.From {
		clockwise = 1
	}
	fmt.Fprintf(&o.path, "A%s %s 0 %d %d %s %s", r, r, large, clockwise, number(end.X), number(end.Y))
	return o
}

// Bend goes to a spot in a curve that starts toward another.
func (o *Outline) Bend(toward, to Spot) *Outline {
	fmt.Fprintf(&o.path, "Q%s %s %s %s", number(toward.X), number(toward.Y), number(to.X), number(to.Y))
	return o
}

// Sector is the outline between two arcs of one centre.
func Sector(centre Spot, inner, outer, from, to float64) *Outline {
	var o Outline
	return o.Arc(Arc{centre, outer, from, to}).Arc(Arc{centre, inner, to, from})
}

// Trace draws an outline; closed, it comes back to where it began.
func (d *Canvas) Trace(class string, o *Outline, closed bool) {
	if closed {
		o.path.WriteString("Z")
	}
	fmt.Fprintf(&d.body, `<path class="%s" d="%s"/>`+"\n", class, o.path.String())
}

// Curve draws an arc alone.
func (d *Canvas) Curve(class string, a Arc) {
	var o Outline
	d.Trace(class, o.Arc(a), false)
}
