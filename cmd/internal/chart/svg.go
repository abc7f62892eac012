package chart

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// drawing is an SVG picture under way. Classes stand in style.go.
type drawing struct{ body bytes.Buffer }

type spot struct{ x, y float64 }

// whole is the picture with its frame, title and description.
func (d *drawing) whole(width, height float64, title, description string) []byte {
	var out bytes.Buffer
	class := "ed"
	if width > pictureWidth {
		class = "ed wide"
	}
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" class="%s" role="img" viewBox="0 0 %s %s">`+"\n",
		class, number(width), number(height))
	fmt.Fprintf(&out, "<title>%s</title>\n<desc>%s</desc>\n<style>%s</style>\n", escaped(title), escaped(description), Style())
	fmt.Fprintf(&out, `<rect class="paper" width="%s" height="%s"/>`+"\n", number(width), number(height))
	out.Write(d.body.Bytes())
	out.WriteString("</svg>\n")
	return out.Bytes()
}

// escaped is text that XML shows as it stands.
func escaped(text string) string {
	var out bytes.Buffer
	if err := xml.EscapeText(&out, []byte(Clean(text))); err != nil {
		return "" // a buffer takes everything
	}
	return out.String()
}

// number is a coordinate, to a hundredth.
func number(x float64) string {
	return strconv.FormatFloat(math.Round(x*100)/100+0, 'f', -1, 64)
}

// group begins a group with a title of its own, shown where a pointer rests.
func (d *drawing) group(title string) {
	fmt.Fprintf(&d.body, "<g><title>%s</title>\n", escaped(title))
}

func (d *drawing) endGroup() { d.body.WriteString("</g>\n") }

// window begins a part of the picture with the same coordinates, cut off at its
// edges.
func (d *drawing) window(b box) {
	x, y, w, h := number(b.left), number(b.top), number(b.width()), number(b.height())
	fmt.Fprintf(&d.body, `<svg x="%s" y="%s" width="%s" height="%s" viewBox="%s %s %s %s">`+"\n", x, y, w, h, x, y, w, h)
}

func (d *drawing) endWindow() { d.body.WriteString("</svg>\n") }

func (d *drawing) line(class string, from, to spot) {
	fmt.Fprintf(&d.body, `<line class="%s" x1="%s" y1="%s" x2="%s" y2="%s"/>`+"\n",
		class, number(from.x), number(from.y), number(to.x), number(to.y))
}

func (d *drawing) rect(class string, b box) {
	fmt.Fprintf(&d.body, `<rect class="%s" x="%s" y="%s" width="%s" height="%s"/>`+"\n",
		class, number(b.left), number(b.top), number(b.width()), number(b.height()))
}

func (d *drawing) circle(class string, at spot, radius float64) {
	fmt.Fprintf(&d.body, `<circle class="%s" cx="%s" cy="%s" r="%s"/>`+"\n", class, number(at.x), number(at.y), number(radius))
}

// path joins spots; closed, it comes back to the first.
func (d *drawing) path(class string, spots []spot, closed bool) {
	var p strings.Builder
	for i, s := range spots {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		p.WriteString(letter + number(s.x) + " " + number(s.y))
	}
	if closed {
		p.WriteString("Z")
	}
	fmt.Fprintf(&d.body, `<path class="%s" d="%s"/>`+"\n", class, p.String())
}

// words writes text that begins, has its middle or ends at a spot.
func (d *drawing) words(class, anchor string, at spot, text string) {
	fmt.Fprintf(&d.body, `<text class="%s" text-anchor="%s" x="%s" y="%s">%s</text>`+"\n",
		class, anchor, number(at.x), number(at.y), escaped(text))
}

// lines writes lines one below the other from a spot on, and returns where the next
// one would be.
func (d *drawing) lines(class, anchor string, at spot, size float64, lines []string) float64 {
	for _, line := range lines {
		d.words(class, anchor, at, line)
		at.y += size * lineHeight
	}
	return at.y
}

// title writes the title of a picture so wide, and returns where it ends.
func (d *drawing) title(text string, width float64) (bottom float64) {
	const first = margin + titleSize*lineHeight - 4
	next := d.lines("text title", "start", spot{margin, first}, titleSize, wrapped(text, width-2*margin, titleSize*bold, 2))
	return margin + next - first
}

type box struct{ left, top, right, bottom float64 }

func (b box) width() float64  { return b.right - b.left }
func (b box) height() float64 { return b.bottom - b.top }
func (b box) grown(by float64) box {
	return box{b.left - by, b.top - by, b.right + by, b.bottom + by}
}

// shape is the outline of a marker.
type shape int

const (
	disc shape = iota
	square
	triangle
	diamond
	downward
	plus
)

const markerRadius = 4.2

// marker draws a point of series n. A doubtful one is hollow and crossed out.
func (d *drawing) marker(n int, at spot, doubtful bool) {
	class := seriesClass("fill", n)
	if doubtful {
		class = "mark " + seriesClass("hollow", n)
	}
	d.outline(class, shapes[n%len(shapes)], at)
	if doubtful {
		const r = markerRadius + 2.5
		d.line("mark alarmed", spot{at.x - r, at.y - r}, spot{at.x + r, at.y + r})
		d.line("mark alarmed", spot{at.x - r, at.y + r}, spot{at.x + r, at.y - r})
	}
}

func (d *drawing) outline(class string, s shape, at spot) {
	const r = markerRadius
	switch s {
	case square:
		d.rect(class, box{at.x, at.y, at.x, at.y}.grown(r*0.9))
	case triangle:
		d.path(class, polygon(at, r*1.25, -90, 3), true)
	case diamond:
		d.path(class, polygon(at, r*1.25, -90, 4), true)
	case downward:
		d.path(class, polygon(at, r*1.25, 90, 3), true)
	case plus:
		d.path(class, cross(at, r*1.2, r*0.4), true)
	default:
		d.circle(class, at, r)
	}
}

// polygon is the corners of a regular polygon, the first at a direction in degrees.
func polygon(at spot, radius, direction float64, corners int) []spot {
	var out []spot
	for i := range corners {
		sin, cos := math.Sincos((direction + 360*float64(i)/float64(corners)) * math.Pi / 180)
		out = append(out, spot{at.x + radius*cos, at.y + radius*sin})
	}
	return out
}

// cross is the outline of an upright cross with arms of length r and half-width w.
func cross(at spot, r, w float64) []spot {
	var out []spot
	for _, s := range []spot{{-w, -r}, {w, -r}, {w, -w}, {r, -w}, {r, w}, {w, w}, {w, r}, {-w, r}, {-w, w}, {-r, w}, {-r, -w}, {-w, -w}} {
		out = append(out, spot{at.x + s.x, at.y + s.y})
	}
	return out
}
