package chart

import (
	"math"

	"evendrop/cmd/internal/chart/draw"
)

// SVG is the chart as a picture. Numbers that are none are an error.
func (c Chart) SVG() ([]byte, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	l := c.layout()
	l.frame()
	l.levelBands()
	l.uprightBands()
	l.Window(l.plot.Grown(markerRadius + 4))
	for n, s := range c.Series {
		l.series(s.style(n), s)
	}
	l.EndWindow()
	for _, b := range l.Upright {
		from, to := l.ends(b)
		l.bandLabel(b.Label, from, to)
	}
	l.lanes()
	l.names()
	return l.Whole(c.width(), l.bottom, c.Title, c.Description), nil
}

type layout struct {
	*draw.Canvas
	Chart
	x, y   Scale
	plot   draw.Box
	foot   float64 // where the axis of X stands, under the plot and its lanes
	named  float64 // width for the names of series at the right
	bottom float64
}

const chartHeight = 236.0 // of the plot itself

func (c Chart) layout() *layout {
	l := &layout{Canvas: &draw.Canvas{}, Chart: c}
	l.x, l.y = c.scales()
	top := l.Heading(c.Title, c.width()) + draw.TextSize*draw.LineHeight
	l.Words("quiet", "start", draw.At(draw.Margin, top-2), c.Y.Label)
	if c.labelAbove() {
		top += draw.SmallSize * draw.LineHeight
	}
	for _, s := range c.Series {
		l.named = max(l.named, min(nameWidth, draw.TextWidth(s.Name, draw.SmallSize*draw.Bold)+nameShift(s)))
	}
	right := c.width() - draw.Margin - 8
	if l.named > 0 {
		right -= l.named + 12
	}
	l.plot = draw.Box{Left: draw.Margin + l.tickWidth() + 6, Top: top + 12, Right: right, Bottom: top + 12 + chartHeight}
	l.foot = l.plot.Bottom + l.lanesHeight()
	l.bottom = l.foot + 2.9*draw.TextSize + draw.Margin
	if len(l.X.Named) > 0 {
		l.bottom += draw.SmallSize * draw.LineHeight
	}
	return l
}

func (c Chart) width() float64 {
	if c.Wide {
		return 2 * draw.Width
	}
	return draw.Width
}

// tickWidth is the room for the numbers at the left.
func (l *layout) tickWidth() (widest float64) {
	for _, t := range l.y.Ticks {
		widest = max(widest, draw.TextWidth(draw.Pretty(l.y.Label(t)), draw.SmallSize))
	}
	return widest
}

func (l *layout) at(x, y float64) draw.Spot {
	up := l.y.At(y)
	if !l.Y.Down {
		up = 1 - up
	}
	return draw.At(l.plot.Left+l.x.At(x)*l.plot.Width(), l.plot.Top+up*l.plot.Height())
}

// frame draws the grid, the axes and what they count.
func (l *layout) frame() {
	for _, t := range l.x.Ticks {
		at := l.at(t, l.y.from)
		l.Line("grid", draw.At(at.X, l.plot.Top), draw.At(at.X, l.foot))
	}
	for _, t := range l.y.Ticks {
		at := l.at(l.x.from, t)
		l.Line("grid", draw.At(l.plot.Left, at.Y), draw.At(l.plot.Right, at.Y))
	}
	l.ticks()
	for _, named := range l.X.Named {
		if at := l.at(named.At, l.y.from).X; named.At >= l.x.from && named.At <= l.x.to {
			l.Line("named", draw.At(at, l.plot.Top), draw.At(at, l.plot.Bottom))
			l.Words("text small strong", "middle", draw.At(at, l.foot+draw.SmallSize*(1+draw.LineHeight)+5), named.Name)
		}
	}
	l.Line("axis", draw.At(l.plot.Left, l.plot.Top), draw.At(l.plot.Left, l.plot.Bottom))
	l.Line("axis", draw.At(l.plot.Left, l.plot.Bottom), draw.At(l.plot.Right, l.plot.Bottom))
	if l.foot > l.plot.Bottom {
		l.Line("axis", draw.At(l.plot.Left, l.foot), draw.At(l.plot.Right, l.foot))
	}
	l.Words("quiet", "middle", draw.At((l.plot.Left+l.plot.Right)/2, l.bottom-draw.Margin-0.3*draw.TextSize), l.X.Label)
}

// ticks writes the numbers of both axes.
func (l *layout) ticks() {
	for _, t := range l.x.numbered(l.plot.Width()) {
		l.Words("quiet small", "middle", draw.At(l.at(t, l.y.from).X, l.foot+draw.SmallSize+5), draw.Pretty(l.x.Label(t)))
	}
	l.Moved(draw.At(0, l.plot.Top))
	for _, t := range l.y.Ticks {
		down := l.at(l.x.from, t).Y - l.plot.Top
		l.Words("quiet small", "end", draw.At(l.plot.Left-6, down+draw.SmallSize*0.35), draw.Pretty(l.y.Label(t)))
	}
	l.EndGroup()
}

// series draws one series: its line, its error bars, its markers and the words
// beside its points.
func (l *layout) series(n int, s Series) {
	if s.Name != "" {
		l.Group(s.Name)
		defer l.EndGroup()
	}
	var spots []draw.Spot
	for _, p := range s.Points {
		spots = append(spots, l.at(p.X, p.Y))
	}
	if s.Line && len(spots) > 1 {
		class := "curve " + draw.DashClass(n)
		if s.Fine {
			class = "fine"
		}
		l.Path(class+" "+draw.SeriesClass("stroke", n), spots, false)
	}
	for _, p := range s.Points {
		l.errorBars(n, p)
	}
	for i, p := range s.Points {
		if !s.Line {
			marker(l.Canvas, n, spots[i], p.Doubtful)
		}
		l.pointLabel(p, spots[i])
	}
}

// style is the number of the series whose ink and shape the n-th has.
func (s Series) style(n int) int {
	if s.With > 0 {
		return s.With - 1
	}
	return n
}

// errorBars draws a point's error bars with caps. One that its marker hides is
// left out.
func (l *layout) errorBars(n int, p Point) {
	class := "bar " + draw.SeriesClass("stroke", n)
	l.errorBar(class, l.at(p.X, p.Y-p.YError), l.at(p.X, p.Y+p.YError), draw.At(capWidth, 0))
	l.errorBar(class, l.at(p.X-p.XError, p.Y), l.at(p.X+p.XError, p.Y), draw.At(0, capWidth))
}

// capWidth is half the width of an error bar's ends.
const capWidth = 3.5

func (l *layout) errorBar(class string, from, to, across draw.Spot) {
	if math.Hypot(to.X-from.X, to.Y-from.Y) < 2*markerRadius {
		return
	}
	l.Line(class, from, to)
	var caps [][2]draw.Spot
	for _, end := range []draw.Spot{from, to} {
		caps = append(caps, [2]draw.Spot{draw.At(end.X-across.X, end.Y-across.Y), draw.At(end.X+across.X, end.Y+across.Y)})
	}
	l.Strokes(class, caps)
}

// pointLabel writes a point's words after it, or before it where there is more room,
// cut short where there is too little.
func (l *layout) pointLabel(p Point, at draw.Spot) {
	if p.Label == "" {
		return
	}
	const away = markerRadius + 5
	if p.Above {
		text := draw.Shortened(p.Label, l.plot.Width(), draw.SmallSize)
		half := draw.TextWidth(text, draw.SmallSize) / 2
		x := math.Max(l.plot.Left+half, math.Min(l.plot.Right-half, at.X))
		l.Words("text small", "middle", draw.At(x, at.Y-away), text)
		return
	}
	after, before := l.plot.Right-at.X-away, at.X-away-l.plot.Left
	y := at.Y + draw.SmallSize*0.35
	if draw.TextWidth(p.Label, draw.SmallSize) < after || after >= before {
		l.Words("text small", "start", draw.At(at.X+away, y), draw.Shortened(p.Label, after, draw.SmallSize))
	} else {
		l.Words("text small", "end", draw.At(at.X-away, y), draw.Shortened(p.Label, before, draw.SmallSize))
	}
}
