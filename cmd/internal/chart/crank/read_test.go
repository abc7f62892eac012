package crank

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"evendrop/cmd/internal/chart/draw"

	"github.com/stretchr/testify/require"
)

// seen is a thing on a picture as an eye has it: where it stands, whatever it was turned by.
type seen struct {
	name, class, text string
	quads             []quad // what it covers, of a text a quad a letter
	corners           []draw.Spot
	title             string // of the group that it is in
}

// quad is four corners, one after the other round it.
type quad [4]draw.Spot

// is tells whether the thing has a class.
func (s seen) is(class string) bool { return strings.Contains(" "+s.class+" ", " "+class+" ") }

// head tells the head of an arrow.
func (s seen) head() bool {
	return s.name == "path" && len(s.corners) == 3 && !s.is("axis") && !s.is("suspect")
}

// frame is a group under way: how far it is moved, how it is turned, and its title.
type frame struct {
	by    draw.Spot
	turn  float64 // degrees clockwise
	about draw.Spot
	title string
}

// turned is a spot where the frames have it, the innermost last in the list.
func turned(frames []frame, s draw.Spot) draw.Spot {
	for i := len(frames) - 1; i >= 0; i-- {
		sin, cos := math.Sincos(frames[i].turn * math.Pi / 180)
		x, y := s.X-frames[i].about.X, s.Y-frames[i].about.Y
		s = draw.At(frames[i].by.X+frames[i].about.X+x*cos-y*sin, frames[i].by.Y+frames[i].about.Y+x*sin+y*cos)
	}
	return s
}

// numbers are those in a text, in their order.
func numbers(t *testing.T, text string) (out []float64) {
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != '-' }) {
		x, err := strconv.ParseFloat(part, 64)
		require.NoError(t, err)
		out = append(out, x)
	}
	return out
}

// read reads a picture: its words, signs, lines and areas, and its description.
func read(t *testing.T, svg []byte) (all []seen, described string) {
	t.Helper()
	decoder := xml.NewDecoder(bytes.NewReader(svg))
	var open []string
	var frames []frame
	arcs := map[string]draw.Arc{}
	var word map[string]string
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return all, described
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			attr := map[string]string{}
			for _, a := range token.Attr {
				attr[a.Name.Local] = a.Value
			}
			open = append(open, token.Name.Local)
			switch token.Name.Local {
			case "g":
				fr := frame{}
				switch n := numbers(t, attr["transform"]); len(n) {
				case 2:
					fr.by = draw.At(n[0], n[1])
				case 3:
					fr.turn, fr.about = n[0], draw.At(n[1], n[2])
				}
				frames = append(frames, fr)
			case "text", "textPath":
				if token.Name.Local == "textPath" {
					attr["class"], attr["text-anchor"] = word["class"], word["text-anchor"]
				}
				word = attr
			case "path", "line", "circle", "rect":
				if attr["id"] != "" {
					arcs["#"+attr["id"]] = arcOf(numbers(t, attr["d"]))
					break
				}
				for _, part := range strokes(attr) { // lines of one path are apart from one another
					attr["d"] = part
					all = append(all, shapeOf(t, token.Name.Local, attr, frames))
				}
			}
		case xml.CharData:
			text := string(token)
			switch {
			case len(open) == 0 || strings.TrimSpace(text) == "":
			case open[len(open)-1] == "desc":
				described = text
			case open[len(open)-1] == "title" && len(frames) > 0:
				frames[len(frames)-1].title = text
			case open[len(open)-1] == "text":
				all = append(all, straight(t, word, text, frames))
			case open[len(open)-1] == "textPath":
				all = append(all, along(t, word, arcs[word["href"]], text, frames))
			}
		case xml.EndElement:
			if token.Name.Local == "g" {
				frames = frames[:len(frames)-1]
			}
			open = open[:len(open)-1]
		}
	}
}

// arcOf is the arc that a path M x y A r r 0 0 1 x y draws: clockwise, less than half round.
func arcOf(n []float64) draw.Arc {
	from, to, r := draw.At(n[0], n[1]), draw.At(n[7], n[8]), n[2]
	dx, dy := to.X-from.X, to.Y-from.Y
	high := math.Sqrt(math.Max(0, r*r-(dx*dx+dy*dy)/4)) / math.Hypot(dx, dy)
	centre := draw.At((from.X+to.X)/2-dy*high, (from.Y+to.Y)/2+dx*high)
	degrees := func(s draw.Spot) float64 { return math.Atan2(s.X-centre.X, centre.Y-s.Y) * 180 / math.Pi }
	return draw.Arc{Centre: centre, Radius: r, From: degrees(from), To: degrees(to)}
}

// strokes are the lines of a path that are apart; a sign is one thing.
func strokes(attr map[string]string) []string {
	if attr["fill-rule"] != "" {
		return []string{attr["d"]}
	}
	parts := strings.Split(attr["d"], "M")
	for i := range parts[1:] {
		parts[i+1] = "M" + parts[i+1]
	}
	return parts[min(1, len(parts)-1):]
}

// title is that of the innermost group that has one.
func title(frames []frame) string {
	for i := len(frames) - 1; i >= 0; i-- {
		if frames[i].title != "" {
			return frames[i].title
		}
	}
	return ""
}

// size is how high letters of a class are, and how much wider than plain ones.
func size(class string) (high, wide float64) {
	high, wide = draw.TextSize, draw.TextSize
	if strings.Contains(class, "small") {
		high, wide = draw.SmallSize, draw.SmallSize
	}
	if strings.Contains(class, "strong") {
		wide *= draw.Bold
	}
	return high, wide
}

// Letters reach so far above and below the line they stand on, in parts of their size.
const above, below = 0.74, 0.21

func straight(t *testing.T, attr map[string]string, text string, frames []frame) seen {
	high, wide := size(attr["class"])
	w := draw.TextWidth(text, wide)
	x, y := numbers(t, attr["x"])[0], numbers(t, attr["y"])[0]
	x -= map[string]float64{"start": 0, "middle": w / 2, "end": w}[attr["text-anchor"]]
	q := quad{draw.At(x, y-above*high), draw.At(x+w, y-above*high), draw.At(x+w, y+below*high), draw.At(x, y+below*high)}
	for i := range q {
		q[i] = turned(frames, q[i])
	}
	return seen{name: "text", class: attr["class"], text: text, quads: []quad{q}, title: title(frames)}
}

func along(t *testing.T, attr map[string]string, a draw.Arc, text string, frames []frame) seen {
	require.Equal(t, "start", attr["text-anchor"])
	high, wide := size(attr["class"])
	s := seen{name: "text", class: attr["class"], text: text, title: title(frames)}
	at := a.From
	for _, letter := range text {
		end := at + draw.Degrees(draw.TextWidth(string(letter), wide), a.Radius)
		place := func(degrees, up float64) draw.Spot { return draw.Polar(a.Centre, degrees, a.Radius+up*high) }
		s.quads = append(s.quads, quad{place(at, above), place(end, above), place(end, -below), place(at, -below)})
		at = end
	}
	require.Len(t, s.quads, utf8.RuneCountInString(text))
	return s
}

// shapeOf is a line or an area; a sign covers the upright square about its outline, turned.
func shapeOf(t *testing.T, name string, attr map[string]string, frames []frame) seen {
	s := seen{name: name, class: attr["class"], title: title(frames)}
	var at []draw.Spot
	switch name {
	case "path":
		at = pathCorners(t, attr["d"])
	case "line":
		at = []draw.Spot{draw.At(numbers(t, attr["x1"])[0], numbers(t, attr["y1"])[0]), draw.At(numbers(t, attr["x2"])[0], numbers(t, attr["y2"])[0])}
	case "circle":
		x, y, r := numbers(t, attr["cx"])[0], numbers(t, attr["cy"])[0], numbers(t, attr["r"])[0]
		at = []draw.Spot{draw.At(x-r, y-r), draw.At(x+r, y-r), draw.At(x+r, y+r), draw.At(x-r, y+r)}
	case "rect":
		if attr["x"] == "" {
			attr["x"], attr["y"] = "0", "0"
		}
		x, y := numbers(t, attr["x"])[0], numbers(t, attr["y"])[0]
		w, h := numbers(t, attr["width"])[0], numbers(t, attr["height"])[0]
		at = []draw.Spot{draw.At(x, y), draw.At(x+w, y), draw.At(x+w, y+h), draw.At(x, y+h)}
	}
	low, high := at[0], at[0]
	for _, c := range at {
		low, high = draw.At(math.Min(low.X, c.X), math.Min(low.Y, c.Y)), draw.At(math.Max(high.X, c.X), math.Max(high.Y, c.Y))
		s.corners = append(s.corners, turned(frames, c))
	}
	q := quad{low, draw.At(high.X, low.Y), high, draw.At(low.X, high.Y)}
	for i := range q {
		q[i] = turned(frames, q[i])
	}
	s.quads = []quad{q}
	if len(s.corners) == 3 {
		c := s.corners
		s.quads = []quad{{c[0], c[1], draw.At((c[1].X+c[2].X)/2, (c[1].Y+c[2].Y)/2), c[2]}}
	}
	if attr["fill-rule"] != "" {
		s.name = "sign"
	}
	return s
}

// pathCorners are the ends of a path's lines, and places along its arcs and bends that are
// too near one another to be told from them.
func pathCorners(t *testing.T, d string) (out []draw.Spot) {
	const pieces = 40
	for d = strings.TrimSuffix(d, "Z"); d != ""; {
		next := 1 + strings.IndexAny(d[1:]+"M", "MLAQ")
		part := strings.TrimSuffix(d[:next], "Z")
		d = d[next:]
		n := numbers(t, part)
		end := draw.At(n[len(n)-2], n[len(n)-1])
		if part[0] == 'M' || part[0] == 'L' {
			out = append(out, end)
			continue
		}
		from := out[len(out)-1]
		for k := 1; k <= pieces; k++ {
			if u := float64(k) / pieces; part[0] == 'A' {
				out = append(out, onArc(from, end, n[0], n[3] == 1, n[4] == 1, u))
			} else {
				a, b, c := (1-u)*(1-u), 2*u*(1-u), u*u
				out = append(out, draw.At(a*from.X+b*n[0]+c*end.X, a*from.Y+b*n[1]+c*end.Y))
			}
		}
	}
	return out
}

// onArc is a place so far along the arc of a circle between two spots (SVG2 B.2.4, from
// memory).
func onArc(from, to draw.Spot, r float64, large, clockwise bool, along float64) draw.Spot {
	dx, dy := to.X-from.X, to.Y-from.Y
	side := 1.0
	if large == clockwise {
		side = -1
	}
	high := side * math.Sqrt(math.Max(0, r*r-(dx*dx+dy*dy)/4)) / math.Hypot(dx, dy)
	centre := draw.At((from.X+to.X)/2-dy*high, (from.Y+to.Y)/2+dx*high)
	begins, ends := math.Atan2(from.Y-centre.Y, from.X-centre.X), math.Atan2(to.Y-centre.Y, to.X-centre.X)
	switch {
	case clockwise && ends <= begins:
		ends += 2 * math.Pi
	case !clockwise && ends >= begins:
		ends -= 2 * math.Pi
	}
	sin, cos := math.Sincos(begins + along*(ends-begins))
	return draw.At(centre.X+r*cos, centre.Y+r*sin)
}

// meet tells whether two quads share a place: where no side of either parts them.
func meet(a, b quad) bool {
	parted := func(p, q quad) bool {
		for i := range p {
			from, to := p[i], p[(i+1)%4]
			out := draw.At(to.Y-from.Y, from.X-to.X)
			far := func(s draw.Spot) float64 { return (s.X-from.X)*out.X + (s.Y-from.Y)*out.Y }
			inside := far(p[(i+2)%4]) + far(p[(i+3)%4]) // of one sign, or one of them zero
			sign := -math.Copysign(1, inside)
			apart := true
			for _, s := range q {
				apart = apart && sign*far(s) >= -1e-6
			}
			if apart {
				return true
			}
		}
		return false
	}
	return !parted(a, b) && !parted(b, a)
}

func meetAny(a, b []quad) bool {
	for _, p := range a {
		for _, q := range b {
			if meet(p, q) {
				return true
			}
		}
	}
	return false
}

// middle is that of what a thing covers.
func (s seen) middle() (at draw.Spot) {
	for _, c := range s.quads[0] {
		at.X, at.Y = at.X+c.X/4, at.Y+c.Y/4
	}
	return at
}
