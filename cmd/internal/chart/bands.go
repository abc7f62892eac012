package chart

import (
	"math"
	"strings"

	"evendrop/cmd/internal/chart/draw"
)

// uprightBands draws intervals of X from top to bottom. The label stands at the
// high end of Y, where a curve that turns round leaves room.
func (l *layout) uprightBands() {
	for _, b := range l.Upright {
		from, to := l.at(math.Min(b.From, b.To), l.y.from).X, l.at(math.Max(b.From, b.To), l.y.from).X
		from, to = atLeast(from, to, 2)
		l.Group(b.Label)
		l.Rect(shade(to-from), draw.Box{Left: from, Top: l.plot.Top, Right: to, Bottom: l.plot.Bottom})
		l.Line("edge", draw.At(from, l.plot.Top), draw.At(from, l.plot.Bottom))
		l.Line("edge", draw.At(to, l.plot.Top), draw.At(to, l.plot.Bottom))
		l.EndGroup()
		l.bandLabel(b.Label, from, to)
	}
}

// shade is the class of a band: a pale one for one that fills much of the picture.
func shade(width float64) string {
	if width > 40 {
		return "zone"
	}
	return "band"
}

// bandLabel writes a band's label into it, after it or before it, wherever it
// fits first in the fewest lines; where it fits nowhere, into the band, cut short.
func (l *layout) bandLabel(label string, from, to float64) {
	const gap = 5
	places := []struct {
		anchor  string
		x, room float64
	}{
		{"middle", (from + to) / 2, to - from - 2*gap},
		{"start", to + gap, l.plot.Right - to - gap},
		{"end", from - gap, from - gap - l.plot.Left},
	}
	for most := 1; most <= 3; most++ {
		for _, p := range places {
			lines := draw.Wrapped(label, p.room, draw.SmallSize, most)
			if !strings.Contains(strings.Join(lines, ""), "…") {
				l.bandLines(lines, p.anchor, p.x)
				return
			}
		}
	}
	l.bandLines(draw.Wrapped(label, places[0].room, draw.SmallSize, 3), "middle", places[0].x)
}

// bandLines writes lines at the high end of Y.
func (l *layout) bandLines(lines []string, anchor string, x float64) {
	y := l.plot.Top + draw.SmallSize + 4
	if l.Y.Down {
		y = l.plot.Bottom - 7 - float64(len(lines)-1)*draw.SmallSize*draw.LineHeight
	}
	l.Lines("text small", anchor, draw.At(x, y), draw.SmallSize, lines)
}

// levelBands draws intervals of Y from side to side: limits.
func (l *layout) levelBands() {
	for _, b := range l.Level {
		first, second := l.at(l.x.from, b.From).Y, l.at(l.x.from, b.To).Y
		top, bottom := math.Min(first, second), math.Max(first, second)
		l.Group(b.Label)
		if top < bottom {
			top, bottom = atLeast(top, bottom, 2)
			l.Rect("zone", draw.Box{Left: l.plot.Left, Top: top, Right: l.plot.Right, Bottom: bottom})
			l.Line("edge", draw.At(l.plot.Left, bottom), draw.At(l.plot.Right, bottom))
		}
		l.Line("edge", draw.At(l.plot.Left, top), draw.At(l.plot.Right, top))
		l.EndGroup()
		l.Words("text small", "start", draw.At(l.plot.Left+6, top-5), draw.Shortened(b.Label, l.plot.Width()-6, draw.SmallSize))
	}
}

// atLeast is an interval widened to a size that can be seen.
func atLeast(from, to, size float64) (float64, float64) {
	if short := size - (to - from); short > 0 {
		return from - short/2, to + short/2
	}
	return from, to
}
