package chart

import (
	"cmp"
	"math"
	"slices"
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
	n = s.style(n)
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

// spread moves labels apart. Each wants its middle at a place and takes a size;
// the answer is where the middles go, in the same order: between low and high,
// none upon another, and otherwise as near to what they want as least squares
// can. Labels that cannot all fit run beyond high.
func spread(wanted, sizes []float64, low, high float64) []float64 {
	order := make([]int, len(wanted))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(wanted[a], wanted[b]) })

	var rows []row
	for _, i := range order {
		r := row{members: []int{i}, size: sizes[i], pull: wanted[i] - sizes[i]/2}
		r.settle(low, high)
		for n := len(rows); n > 0 && rows[n-1].start+rows[n-1].size > r.start; n-- {
			r = rows[n-1].joined(r)
			r.settle(low, high)
			rows = rows[:n-1]
		}
		rows = append(rows, r)
	}

	placed := make([]float64, len(wanted))
	for _, r := range rows {
		at := r.start
		for _, i := range r.members {
			placed[i] = at + sizes[i]/2
			at += sizes[i]
		}
	}
	return placed
}

// row is labels that touch, placed as one.
type row struct {
	members []int
	size    float64
	pull    float64 // sum of where each member would have the row start
	start   float64
}

// settle puts a row where its members pull it, inside the ends.
func (r *row) settle(low, high float64) {
	r.start = math.Max(low, math.Min(high-r.size, r.pull/float64(len(r.members))))
}

// joined is r with next after it.
func (r row) joined(next row) row {
	return row{
		members: append(slices.Clone(r.members), next.members...),
		size:    r.size + next.size,
		pull:    r.pull + next.pull - float64(len(next.members))*r.size,
	}
}
