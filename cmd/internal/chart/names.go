package chart

import (
	"math"

	"evendrop/cmd/internal/chart/draw"
)

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
		lines[n] = draw.Wrapped(s.Name, nameWidth-nameShift(s), draw.SmallSize*draw.Bold, nameLines)
		at := l.at(l.x.from, s.Points[len(s.Points)-1].Y).Y
		wanted[n] = math.Max(l.plot.Top, math.Min(l.plot.Bottom, at))
		sizes[n] = float64(len(lines[n])) * draw.SmallSize * draw.LineHeight
	}
	for n, at := range draw.Spread(wanted, sizes, l.plot.Top-draw.TextSize, l.plot.Bottom+draw.TextSize) {
		if lines[n] != nil {
			l.name(n, wanted[n], at, lines[n])
		}
	}
}

// name writes the name of series n in lines about a height, and ties it to the
// series' end.
func (l *layout) name(n int, end, at float64, lines []string) {
	s := l.Series[n]
	n = s.style(n)
	x := l.plot.Right + 14
	if s.Line {
		last := s.Points[len(s.Points)-1]
		l.Line("bar "+draw.SeriesClass("stroke", n), draw.At(l.at(last.X, last.Y).X, end), draw.At(x-2, at))
	} else {
		marker(l.Canvas, n, draw.At(x+2, at), false)
	}
	y := at - float64(len(lines)-1)/2*draw.SmallSize*draw.LineHeight + draw.SmallSize*0.35
	l.Lines("small strong "+draw.SeriesClass("fill", n), "start", draw.At(x+nameShift(s), y), draw.SmallSize, lines)
}
