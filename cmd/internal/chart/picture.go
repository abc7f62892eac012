package chart

import (
	"fmt"
	"math"
	"strings"
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
	l.window(l.plot.grown(markerRadius + 4))
	for n, s := range c.Series {
		l.series(s.style(n), s)
	}
	l.endWindow()
	l.lanes()
	l.names()
	return l.whole(c.width(), l.bottom, c.Title, c.Description), nil
}

type layout struct {
	*drawing
	Chart
	x, y   Scale
	plot   box
	foot   float64 // where the axis of X stands, under the plot and its lanes
	named  float64 // width for the names of series at the right
	bottom float64
}

const (
	chartHeight = 300.0 // of the plot itself
	margin      = 12.0
	lineHeight  = 1.3
)

func (c Chart) layout() *layout {
	l := &layout{drawing: &drawing{}, Chart: c}
	l.x, l.y = c.scales()
	top := l.title(c.Title, c.width()) + textSize*lineHeight
	l.words("quiet", "start", spot{margin, top - 2}, c.Y.Label)
	for _, s := range c.Series {
		l.named = max(l.named, min(nameWidth, textWidth(s.Name, smallSize*bold)+nameShift(s)))
	}
	right := c.width() - margin - 8
	if l.named > 0 {
		right -= l.named + 12
	}
	l.plot = box{margin + l.tickWidth() + 6, top + 12, right, top + 12 + chartHeight}
	l.foot = l.plot.bottom + l.lanesHeight()
	l.bottom = l.foot + 2.9*textSize + margin
	if len(l.X.Named) > 0 {
		l.bottom += smallSize * lineHeight
	}
	return l
}

func (c Chart) width() float64 {
	if c.Wide {
		return 2 * pictureWidth
	}
	return pictureWidth
}

// tickWidth is the room for the numbers at the left.
func (l *layout) tickWidth() (widest float64) {
	for _, t := range l.y.Ticks {
		widest = max(widest, textWidth(pretty(l.y.Label(t)), smallSize))
	}
	return widest
}

func (l *layout) at(x, y float64) spot {
	up := l.y.At(y)
	if !l.Y.Down {
		up = 1 - up
	}
	return spot{l.plot.left + l.x.At(x)*l.plot.width(), l.plot.top + up*l.plot.height()}
}

// frame draws the grid, the axes and what they count.
func (l *layout) frame() {
	for _, t := range l.x.Ticks {
		at := l.at(t, l.y.from)
		l.line("grid", spot{at.x, l.plot.top}, spot{at.x, l.foot})
		l.words("quiet small", "middle", spot{at.x, l.foot + smallSize + 5}, pretty(l.x.Label(t)))
	}
	for _, named := range l.X.Named {
		if at := l.at(named.At, l.y.from).x; named.At >= l.x.from && named.At <= l.x.to {
			l.line("named", spot{at, l.plot.top}, spot{at, l.plot.bottom})
			l.words("text small strong", "middle", spot{at, l.foot + smallSize*(1+lineHeight) + 5}, named.Name)
		}
	}
	for _, t := range l.y.Ticks {
		at := l.at(l.x.from, t)
		l.line("grid", spot{l.plot.left, at.y}, spot{l.plot.right, at.y})
		l.words("quiet small", "end", spot{l.plot.left - 6, at.y + smallSize*0.35}, pretty(l.y.Label(t)))
	}
	l.line("axis", spot{l.plot.left, l.plot.top}, spot{l.plot.left, l.plot.bottom})
	l.line("axis", spot{l.plot.left, l.plot.bottom}, spot{l.plot.right, l.plot.bottom})
	if l.foot > l.plot.bottom {
		l.line("axis", spot{l.plot.left, l.foot}, spot{l.plot.right, l.foot})
	}
	l.words("quiet", "middle", spot{(l.plot.left + l.plot.right) / 2, l.bottom - margin - 0.3*textSize}, l.X.Label)
}

// series draws one series: its line, its error bars, its markers and the words
// beside its points.
func (l *layout) series(n int, s Series) {
	if s.Name != "" {
		l.group(s.Name)
		defer l.endGroup()
	}
	var spots []spot
	for _, p := range s.Points {
		spots = append(spots, l.at(p.X, p.Y))
	}
	if s.Line && len(spots) > 1 {
		class := fmt.Sprintf("curve dash%d", n%len(dashes))
		if s.Fine {
			class = "fine"
		}
		l.path(class+" "+seriesClass("stroke", n), spots, false)
	}
	for i, p := range s.Points {
		l.errorBars(n, p)
		if !s.Line {
			l.marker(n, spots[i], p.Doubtful)
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

func seriesClass(kind string, n int) string { return fmt.Sprintf("%s%d", kind, n%len(seriesInks)) }

// errorBars draws a point's error bars with caps. One that its marker hides is
// left out.
func (l *layout) errorBars(n int, p Point) {
	class := "bar " + seriesClass("stroke", n)
	l.errorBar(class, l.at(p.X, p.Y-p.YError), l.at(p.X, p.Y+p.YError), spot{capWidth, 0})
	l.errorBar(class, l.at(p.X-p.XError, p.Y), l.at(p.X+p.XError, p.Y), spot{0, capWidth})
}

// capWidth is half the width of an error bar's ends.
const capWidth = 3.5

func (l *layout) errorBar(class string, from, to, across spot) {
	if math.Hypot(to.x-from.x, to.y-from.y) < 2*markerRadius {
		return
	}
	l.line(class, from, to)
	var caps strings.Builder
	for _, end := range []spot{from, to} {
		fmt.Fprintf(&caps, "M%s %sL%s %s", number(end.x-across.x), number(end.y-across.y), number(end.x+across.x), number(end.y+across.y))
	}
	fmt.Fprintf(&l.body, `<path class="%s" d="%s"/>`+"\n", class, caps.String())
}

// pointLabel writes a point's words after it, or before it where there is more room,
// cut short where there is too little.
func (l *layout) pointLabel(p Point, at spot) {
	if p.Label == "" {
		return
	}
	const away = markerRadius + 5
	if p.Above {
		text := shortened(p.Label, l.plot.width(), smallSize)
		half := textWidth(text, smallSize) / 2
		x := math.Max(l.plot.left+half, math.Min(l.plot.right-half, at.x))
		l.words("text small", "middle", spot{x, at.y - away}, text)
		return
	}
	after, before := l.plot.right-at.x-away, at.x-away-l.plot.left
	y := at.y + smallSize*0.35
	if textWidth(p.Label, smallSize) < after || after >= before {
		l.words("text small", "start", spot{at.x + away, y}, shortened(p.Label, after, smallSize))
	} else {
		l.words("text small", "end", spot{at.x - away, y}, shortened(p.Label, before, smallSize))
	}
}
