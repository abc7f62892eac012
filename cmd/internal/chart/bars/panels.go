package bars

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

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
	s.Moved(draw.At(0, below))
	for _, t := range g.up.ticks() {
		s.Words("quiet small", "end", draw.At(g.left-5, g.down(t)+rise*0.42), draw.Pretty(words.Fixed(t, g.up.places())))
	}
	s.EndGroup()
	s.next = below + panelHigh + 4
	for i, p := range row {
		at := draw.At(g.column(i), below)
		s.Group(p.words())
		s.ground(g, at, p.Shade)
		s.points(g, at, p.Points)
		s.EndGroup()
		s.under(g, at.X)
	}
	s.next += rise + rowGap
}

// within is a scale with its ends inside a plot so long.
func (s scale) within(long float64) scale {
	s.left, s.right = inset, long-inset
	return s
}

// right is how far from its left a value lies on a plot, and down how far from its top.
func (g grid) right(value float64) float64 { return g.across.within(g.wide).at(value) }

func (g grid) down(value float64) float64 { return g.up.within(panelHigh).at(-value) }

// under says how far a plot that begins so far right reaches to each side, and names zero.
func (s *sheet) under(g grid, left float64) {
	reach := words.Trimmed(g.across.end, 6)
	s.Moved(draw.At(left, s.next+rise))
	s.Words("quiet small", "start", draw.At(0, 0), draw.Pretty("-"+reach))
	s.Words("quiet small", "middle", draw.At(g.right(0), 0), g.zero)
	s.Words("quiet small", "end", draw.At(g.wide, 0), "+"+reach)
	s.EndGroup()
}

// ground draws what is behind a panel's points, with a line at zero.
func (s *sheet) ground(g grid, at draw.Spot, shade Measured) {
	s.Moved(at)
	defer s.EndGroup()
	s.Rect("zone", draw.Box{Right: g.wide, Bottom: panelHigh})
	if shade.From != shade.To {
		from, to := atLeast(g.right(shade.From), g.right(shade.To), 2)
		s.Rect("band", draw.Box{Left: from, Right: to, Bottom: panelHigh})
	}
	for _, t := range g.up.ticks() {
		class := "grid"
		if t == 0 {
			class = "axis"
		}
		s.Line(class, draw.At(0, g.down(t)), draw.At(g.wide, g.down(t)))
	}
}

// points draws what was read on a panel that begins at a spot, those of a kind together.
func (s *sheet) points(g grid, at draw.Spot, list []Point) {
	kinds := func(a, b Point) int { return cmp.Compare(a.Kind, b.Kind) }
	for _, p := range slices.SortedStableFunc(slices.Values(list), kinds) {
		spot := draw.At(at.X+g.right(p.X), at.Y+g.down(p.Y))
		switch {
		case g.up.far(p.Y):
			s.outlier(spot, p.Y > 0)
		case p.Doubtful:
			s.middle(spot, true)
		default:
			s.dot(p.Kind, spot)
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
