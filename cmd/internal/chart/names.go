package chart

import "math"

// nameWidth is the most that the name of a series takes beside the plot, in
// nameLines lines.
const (
	nameWidth = 116.0
	nameLines = 3
)

// nameShift is the room that a series' marker takes before its name.
func nameShift(s Series) float64 {
	if s.Line {
		return 0
	}
	return markerRadius + 6
}

// names writes each series' name beside its last point, moved apart where they
// would lie upon one another, with a line to what it names.
func (l *layout) names() {
	lines := make([][]string, len(l.Series))
	wanted, sizes := make([]float64, len(l.Series)), make([]float64, len(l.Series))
	for n, s := range l.Series {
		if s.Name == "" || len(s.Points) == 0 {
			continue
		}
		lines[n] = wrapped(s.Name, nameWidth-nameShift(s), smallSize*bold, nameLines)
		at := l.at(l.x.from, s.Points[len(s.Points)-1].Y).y
		wanted[n] = math.Max(l.plot.top, math.Min(l.plot.bottom, at))
		sizes[n] = float64(len(lines[n])) * smallSize * lineHeight
	}
	for n, at := range spread(wanted, sizes, l.plot.top-textSize, l.plot.bottom+textSize) {
		if lines[n] != nil {
			l.name(n, wanted[n], at, lines[n])
		}
	}
}

// name writes the name of series n in lines about a height, and ties it to the
// series' end.
func (l *layout) name(n int, end, at float64, lines []string) {
	s := l.Series[n]
	x := l.plot.right + 14
	if s.Line {
		last := s.Points[len(s.Points)-1]
		l.line("bar "+seriesClass("stroke", n), spot{l.at(last.X, last.Y).x, end}, spot{x - 2, at})
	} else {
		l.marker(n, spot{x + 2, at}, false)
	}
	y := at - float64(len(lines)-1)/2*smallSize*lineHeight + smallSize*0.35
	l.lines("small strong "+seriesClass("fill", n), "start", spot{x + nameShift(s), y}, smallSize, lines)
}
