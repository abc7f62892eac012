package bars

import (
	"errors"
	"fmt"
	"math"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/words"
)

// Panels is small pictures of one kind on common scales, side by side.
type Panels struct {
	Title       string
	Description string
	X           Counted // across
	Y           string  // up: what is counted, with its unit
	Kinds       []string
	Panels      []Panel
}

// Panel is one of them.
type Panel struct {
	Name   string
	Says   []string // what there is to know of it, a line each
	Points []Point
	Shade  Measured // of X, drawn through all
}

// Point is a place on a panel.
type Point struct {
	X, Y     float64
	Kind     int  // by Kinds
	Doubtful bool // beyond the scale it becomes an arrow at the edge
}

// Sizes of panels.
const (
	columns   = 2
	panelGap  = 14.0
	panelHigh = 84.0
	inset     = 6.0 // of a scale in a plot, for markers at its ends
	saysMost  = 2   // lines that one of the things said takes
	upSteps   = 2   // of the scale of Y either way, at most
)

// SVG is the picture. No panels, and numbers that are none, are an error.
func (p Panels) SVG() ([]byte, error) {
	if len(p.Panels) == 0 {
		return nil, errors.New("a picture of panels needs at least one")
	}
	says := []string{p.Description}
	for _, one := range p.Panels {
		for _, at := range one.Points {
			if !draw.Finite(at.X, at.Y) {
				return nil, fmt.Errorf("panel %q: point (%g, %g) cannot be drawn", one.Name, at.X, at.Y)
			}
		}
		says = append(says, one.words()+".")
	}
	s := begun(p.Title)
	s.kinds(p.Kinds)
	s.note("Up: " + p.Y + ". Across: " + p.X.Unit + ".")
	g := p.grid()
	for from := 0; from < len(p.Panels); from += columns {
		s.panels(g, p.Panels[from:min(from+columns, len(p.Panels))])
	}
	return s.whole(p.Title, says), nil
}

// grid is where panels go, and the scales that they share: across to every point, up to
// every one that is not doubtful.
type grid struct {
	across, up scale
	zero       string
	left, wide float64 // of the first panel, and of each
}

func (p Panels) grid() grid {
	var x, y float64
	for _, one := range p.Panels {
		for _, at := range one.Points {
			x = math.Max(x, math.Abs(at.X))
			if !at.Doubtful {
				y = math.Max(y, math.Abs(at.Y))
			}
		}
	}
	g := grid{across: sized(x, mostSteps), up: sized(y, upSteps), zero: p.X.Zero}
	numbers := 0.0
	for _, t := range g.up.ticks() {
		numbers = math.Max(numbers, draw.TextWidth(draw.Pretty(words.Fixed(t, g.up.places())), draw.SmallSize))
	}
	g.left = draw.Margin + numbers + 6
	g.wide = (width - draw.Margin - g.left - (columns-1)*panelGap) / columns
	return g
}

// column is the left edge of a panel by its column.
func (g grid) column(n int) float64 { return g.left + float64(n)*(g.wide+panelGap) }

func (p Panel) words() string {
	text := p.Name
	for i, says := range p.Says {
		text += [2]string{": ", ", "}[min(i, 1)] + says
	}
	return text
}

// kinds names the kinds of points, each behind its marker.
func (s *sheet) kinds(names []string) {
	x := draw.Margin + 4
	for n, name := range names {
		s.dot(n, draw.At(x, s.next+rise*0.6))
		s.Words("text small", "start", draw.At(x+8, s.next+rise), name)
		x += draw.TextWidth(name, draw.SmallSize) + 28
	}
	if len(names) > 0 {
		s.next += draw.SmallSize * draw.LineHeight
	}
}

// panels draws a row of panels, their plots at one height.
func (s *sheet) panels(g grid, row []Panel) {
	top, below := s.next+4, s.next
	for i, p := range row {
		y := s.Lines("text small strong", "start", draw.At(g.column(i), top+rise), draw.SmallSize, draw.Wrapped(p.Name, g.wide, draw.SmallSize*draw.Bold, 1))
		for _, says := range p.Says {
			y = s.Lines("text small", "start", draw.At(g.column(i), y), draw.SmallSize, draw.Wrapped(says, g.wide, draw.SmallSize, saysMost))
		}
		below = max(below, y-rise+2)
	}
	for _, t := range g.up.ticks() {
		y := height(g.up, below, t)
		s.Words("quiet small", "end", draw.At(g.left-5, y+rise*0.42), draw.Pretty(words.Fixed(t, g.up.places())))
	}
	s.next = below + panelHigh + 4
	for i, p := range row {
		b := draw.Box{Left: g.column(i), Top: below, Right: g.column(i) + g.wide, Bottom: below + panelHigh}
		s.Group(p.words())
		s.plot(g, b, p)
		s.EndGroup()
		s.under(g, b)
	}
	s.next += rise + rowGap
}

// within is a scale with its ends inside a plot.
func (s scale) within(left, right float64) scale {
	s.left, s.right = left+inset, right-inset
	return s
}

// height is where a value lies on a plot that begins at a height.
func height(up scale, top, value float64) float64 { return up.within(top, top+panelHigh).at(-value) }

// under says how far a plot reaches to each side, and names zero.
func (s *sheet) under(g grid, b draw.Box) {
	across, y := g.across.within(b.Left, b.Right), s.next+rise
	reach := words.Trimmed(across.end, 6)
	s.Words("quiet small", "start", draw.At(b.Left, y), draw.Pretty("-"+reach))
	s.Words("quiet small", "middle", draw.At(across.zero(), y), g.zero)
	s.Words("quiet small", "end", draw.At(b.Right, y), "+"+reach)
}

// plot draws one panel's points about a line at zero.
func (s *sheet) plot(g grid, b draw.Box, p Panel) {
	across := g.across.within(b.Left, b.Right)
	s.Rect("zone", b)
	if p.Shade.From != p.Shade.To {
		from, to := atLeast(across.at(p.Shade.From), across.at(p.Shade.To), 2)
		s.Rect("band", draw.Box{Left: from, Top: b.Top, Right: to, Bottom: b.Bottom})
	}
	for _, t := range g.up.ticks() {
		class, y := "grid", height(g.up, b.Top, t)
		if t == 0 {
			class = "axis"
		}
		s.Line(class, draw.At(b.Left, y), draw.At(b.Right, y))
	}
	for _, at := range p.Points {
		spot := draw.At(across.at(at.X), height(g.up, b.Top, at.Y))
		switch {
		case g.up.far(at.Y):
			s.outlier(spot, at.Y > 0)
		case at.Doubtful:
			s.middle(spot, true)
		default:
			s.dot(at.Kind, spot)
		}
	}
}

// dot is a point of a kind.
func (s *sheet) dot(kind int, at draw.Spot) {
	const radius = 2.6
	if kind%2 == 0 {
		s.Circle(draw.SeriesClass("fill", kind), at, radius)
		return
	}
	s.Rect(draw.SeriesClass("fill", kind), draw.Box{Left: at.X, Top: at.Y, Right: at.X, Bottom: at.Y}.Grown(radius*0.9))
}

// outlier is an arrow at the edge towards a point beyond it.
func (s *sheet) outlier(at draw.Spot, upward bool) {
	way := 1.0
	if upward {
		way = -1
	}
	s.Path("warn", []draw.Spot{{X: at.X, Y: at.Y + way*inset}, {X: at.X - 5, Y: at.Y - way*3}, {X: at.X + 5, Y: at.Y - way*3}}, true)
}
