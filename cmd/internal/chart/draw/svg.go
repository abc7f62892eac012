// Package draw is what every picture is drawn with: shapes and words in SVG, the inks and
// the style sheet, and how much room words take. It knows nothing of what is drawn.
//
// References, by their keys in DEVELOPERS.md: WCAG22.
package draw

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"
)

// Canvas is an SVG picture under way. The classes of its parts stand in Style.
type Canvas struct{ body bytes.Buffer }

// Margin is left free round a picture; lines of text stand LineHeight times their size apart.
const (
	Margin     = 12.0
	LineHeight = 1.3
)

// Whole is the picture with its frame, title and description.
func (d *Canvas) Whole(width, height float64, title, description string) []byte {
	var out bytes.Buffer
	class := "ed"
	switch {
	case width > Width:
		class = "ed wide"
	case width < Width:
		class = "ed narrow"
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
	return html.EscapeString(Clean(text)) // the five characters that XML has names for
}

// number is a coordinate, to a hundredth.
func number(x float64) string {
	return strconv.FormatFloat(math.Round(x*100)/100+0, 'f', -1, 64)
}

// Group begins a group with a title of its own, shown where a pointer rests.
func (d *Canvas) Group(title string) {
	fmt.Fprintf(&d.body, "<g><title>%s</title>\n", escaped(title))
}

// Moved begins a part whose places count from a spot. On a page those that are alike are
// written once (Shared).
func (d *Canvas) Moved(to Spot) {
	fmt.Fprintf(&d.body, `<g transform="translate(%s %s)">`+"\n", number(to.X), number(to.Y))
}

// EndGroup ends what Group or Moved began.
func (d *Canvas) EndGroup() { d.body.WriteString("</g>\n") }

// Window begins a part of the picture with the same coordinates, cut off at its
// edges.
func (d *Canvas) Window(b Box) {
	x, y, w, h := number(b.Left), number(b.Top), number(b.Width()), number(b.Height())
	fmt.Fprintf(&d.body, `<svg x="%s" y="%s" width="%s" height="%s" viewBox="%s %s %s %s">`+"\n", x, y, w, h, x, y, w, h)
}

// EndWindow ends what Window began.
func (d *Canvas) EndWindow() { d.body.WriteString("</svg>\n") }

// Line draws a straight line.
func (d *Canvas) Line(class string, from, to Spot) {
	fmt.Fprintf(&d.body, `<line class="%s" x1="%s" y1="%s" x2="%s" y2="%s"/>`+"\n",
		class, number(from.X), number(from.Y), number(to.X), number(to.Y))
}

// Rect draws an upright rectangle.
func (d *Canvas) Rect(class string, b Box) {
	fmt.Fprintf(&d.body, `<rect class="%s" x="%s" y="%s" width="%s" height="%s"/>`+"\n",
		class, number(b.Left), number(b.Top), number(b.Width()), number(b.Height()))
}

// Circle draws a circle about a spot.
func (d *Canvas) Circle(class string, at Spot, radius float64) {
	fmt.Fprintf(&d.body, `<circle class="%s" cx="%s" cy="%s" r="%s"/>`+"\n", class, number(at.X), number(at.Y), number(radius))
}

// Path joins spots; closed, it comes back to the first.
func (d *Canvas) Path(class string, spots []Spot, closed bool) {
	var p strings.Builder
	for i, s := range spots {
		letter := "L"
		if i == 0 {
			letter = "M"
		}
		p.WriteString(letter + number(s.X) + " " + number(s.Y))
	}
	if closed {
		p.WriteString("Z")
	}
	fmt.Fprintf(&d.body, `<path class="%s" d="%s"/>`+"\n", class, p.String())
}

// Strokes draws lines apart from one another as one path.
func (d *Canvas) Strokes(class string, lines [][2]Spot) {
	var p strings.Builder
	for _, l := range lines {
		fmt.Fprintf(&p, "M%s %sL%s %s", number(l[0].X), number(l[0].Y), number(l[1].X), number(l[1].Y))
	}
	fmt.Fprintf(&d.body, `<path class="%s" d="%s"/>`+"\n", class, p.String())
}

// Words writes text whose start, middle or end (the anchor) is at a spot; nothing of none.
func (d *Canvas) Words(class, anchor string, at Spot, text string) {
	if text == "" {
		return
	}
	fmt.Fprintf(&d.body, `<text class="%s" text-anchor="%s" x="%s" y="%s">%s</text>`+"\n",
		class, anchor, number(at.X), number(at.Y), escaped(text))
}

// Lines writes lines one below the other from a spot on, and returns where the next
// one would be.
func (d *Canvas) Lines(class, anchor string, at Spot, size float64, lines []string) float64 {
	for _, line := range lines {
		d.Words(class, anchor, at, line)
		at.Y += size * LineHeight
	}
	return at.Y
}

// Heading writes the title of a picture so wide, and returns where it ends.
func (d *Canvas) Heading(text string, width float64) (bottom float64) {
	const first = Margin + TitleSize*LineHeight - 4
	next := d.Lines("text title", "start", Spot{Margin, first}, TitleSize, Wrapped(text, width-2*Margin, TitleSize*Bold, 2))
	return Margin + next - first
}
