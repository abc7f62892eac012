package chart

import (
	"math"
	"strings"
)

// uprightBands draws intervals of X from top to bottom. The label stands at the
// high end of Y, where a curve that turns round leaves room.
func (l *layout) uprightBands() {
	for _, b := range l.Upright {
		from, to := l.at(math.Min(b.From, b.To), l.y.from).x, l.at(math.Max(b.From, b.To), l.y.from).x
		from, to = atLeast(from, to, 2)
		l.group(b.Label)
		l.rect(shade(to-from), box{from, l.plot.top, to, l.plot.bottom})
		l.line("edge", spot{from, l.plot.top}, spot{from, l.plot.bottom})
		l.line("edge", spot{to, l.plot.top}, spot{to, l.plot.bottom})
		l.endGroup()
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
		{"start", to + gap, l.plot.right - to - gap},
		{"end", from - gap, from - gap - l.plot.left},
	}
	for most := 1; most <= 3; most++ {
		for _, p := range places {
			lines := wrapped(label, p.room, smallSize, most)
			if !strings.Contains(strings.Join(lines, ""), "…") {
				l.bandLines(lines, p.anchor, p.x)
				return
			}
		}
	}
	l.bandLines(wrapped(label, places[0].room, smallSize, 3), "middle", places[0].x)
}

// bandLines writes lines at the high end of Y.
func (l *layout) bandLines(lines []string, anchor string, x float64) {
	y := l.plot.top + smallSize + 4
	if l.Y.Down {
		y = l.plot.bottom - 7 - float64(len(lines)-1)*smallSize*lineHeight
	}
	l.lines("text small", anchor, spot{x, y}, smallSize, lines)
}

// levelBands draws intervals of Y from side to side: limits.
func (l *layout) levelBands() {
	for _, b := range l.Level {
		first, second := l.at(l.x.from, b.From).y, l.at(l.x.from, b.To).y
		top, bottom := math.Min(first, second), math.Max(first, second)
		l.group(b.Label)
		if top < bottom {
			top, bottom = atLeast(top, bottom, 2)
			l.rect("zone", box{l.plot.left, top, l.plot.right, bottom})
			l.line("edge", spot{l.plot.left, bottom}, spot{l.plot.right, bottom})
		}
		l.line("edge", spot{l.plot.left, top}, spot{l.plot.right, top})
		l.endGroup()
		l.words("text small", "start", spot{l.plot.left + 6, top - 5}, shortened(b.Label, l.plot.width()-6, smallSize))
	}
}

// atLeast is an interval widened to a size that can be seen.
func atLeast(from, to, size float64) (float64, float64) {
	if short := size - (to - from); short > 0 {
		return from - short/2, to + short/2
	}
	return from, to
}
