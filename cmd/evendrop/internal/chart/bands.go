package chart

import "math"

// uprightBands draws intervals of X from top to bottom. The label stands at the
// foot, where there is most room.
func (l *layout) uprightBands() {
	for _, b := range l.Upright {
		from, to := l.at(math.Min(b.From, b.To), l.y.from).x, l.at(math.Max(b.From, b.To), l.y.from).x
		from, to = atLeast(from, to, 2)
		l.group(b.Label)
		l.rect("band", box{from, l.plot.top, to, l.plot.bottom})
		l.line("edge", spot{from, l.plot.top}, spot{from, l.plot.bottom})
		l.line("edge", spot{to, l.plot.top}, spot{to, l.plot.bottom})
		l.endGroup()
		anchor, x := "start", to+5
		if x+textWidth(b.Label, smallSize) > l.plot.right {
			anchor, x = "end", from-5
		}
		foot := l.plot.bottom - 7
		if l.Y.Down != l.sag() {
			foot = l.plot.top + smallSize + 4
		}
		l.words("text small", anchor, spot{x, foot}, b.Label)
	}
}

// sag tells whether the middle of what is drawn lies at the high end of Y.
func (l *layout) sag() bool {
	var sum, count float64
	for _, s := range l.Series {
		for _, p := range s.Points {
			sum += l.y.at(p.Y)
			count++
		}
	}
	return sum > count/2
}

// levelBands draws intervals of Y from side to side: limits.
func (l *layout) levelBands() {
	for _, b := range l.Level {
		first, second := l.at(l.x.from, b.From).y, l.at(l.x.from, b.To).y
		top, bottom := atLeast(math.Min(first, second), math.Max(first, second), 2)
		l.group(b.Label)
		l.rect("band", box{l.plot.left, top, l.plot.right, bottom})
		l.line("edge", spot{l.plot.left, top}, spot{l.plot.right, top})
		l.line("edge", spot{l.plot.left, bottom}, spot{l.plot.right, bottom})
		l.endGroup()
		y := top - 5
		if y-smallSize < l.plot.top {
			y = bottom + smallSize + 3
		}
		l.words("text small", "start", spot{l.plot.left + 6, y}, b.Label)
	}
}

// atLeast is an interval widened to a size that can be seen.
func atLeast(from, to, size float64) (float64, float64) {
	if short := size - (to - from); short > 0 {
		return from - short/2, to + short/2
	}
	return from, to
}

// names writes each series' name beside its last point, moved apart where they
// would lie upon one another, with a line to what it names.
func (l *layout) names() {
	var wanted, sizes []float64
	for _, s := range l.Series {
		at := l.plot.top
		if n := len(s.Points); n > 0 {
			at = l.at(s.Points[n-1].X, s.Points[n-1].Y).y
		}
		wanted = append(wanted, math.Max(l.plot.top, math.Min(l.plot.bottom, at)))
		sizes = append(sizes, smallSize*lineHeight)
	}
	placed := spread(wanted, sizes, l.plot.top-textSize, l.plot.bottom+textSize)
	x := l.plot.right + 14
	for n, s := range l.Series {
		if s.Name == "" || len(s.Points) == 0 {
			continue
		}
		last := s.Points[len(s.Points)-1]
		from := spot{l.at(last.X, last.Y).x, wanted[n]}
		if s.Line {
			l.line("bar "+seriesClass("stroke", n), from, spot{x - 2, placed[n]})
		} else {
			l.marker(n, spot{x + 2, placed[n]}, false)
		}
		shift := 0.0
		if !s.Line {
			shift = markerRadius + 6
		}
		l.words("small strong "+seriesClass("fill", n), "start", spot{x + shift, placed[n] + smallSize*0.35},
			shortened(s.Name, nameWidth-shift, smallSize))
	}
}
