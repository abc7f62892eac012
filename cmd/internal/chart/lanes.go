package chart

import (
	"strings"

	"evendrop/cmd/internal/chart/draw"
)

// Lane is an interval of X under the plot, a bar with its words above it: what was
// found, or hollow, what was meant. One whose ends are the same has its middle alone.
type Lane struct {
	Lines    []string // of words
	From, To float64
	Middle   float64
	With     int // the series whose ink and shape it has, from 1
	Hollow   bool
}

func (n Lane) label() string { return strings.Join(n.Lines, ", ") }

// Sizes of a lane.
const (
	laneLines  = 2 // that one of its lines is broken into, at most
	laneBar    = 8.0
	laneGap    = 9.0
	laneUnder  = 4.0                // between its words and its bar
	laneShift  = 2*markerRadius + 8 // of its words, for the marker before them
	laneMiddle = 4.0                // by which the stroke of its middle stands out of the bar
)

// laneWords is a lane's words in lines that fit the plot.
func (l *layout) laneWords(lane Lane) (lines []string) {
	for _, line := range lane.Lines {
		lines = append(lines, draw.Wrapped(line, l.plot.Width()-laneShift-6, draw.SmallSize, laneLines)...)
	}
	return lines
}

// lanesHeight is the room under the plot for the lanes.
func (l *layout) lanesHeight() (height float64) {
	for _, lane := range l.Lanes {
		height += float64(len(l.laneWords(lane)))*draw.SmallSize*draw.LineHeight + laneUnder + laneBar + 2*laneGap
	}
	return height
}

// lanes draws every lane under the one before it.
func (l *layout) lanes() {
	const rise = draw.SmallSize * 0.85 // of a letter above its line
	y := l.plot.Bottom
	for _, lane := range l.Lanes {
		n, first := max(0, lane.With-1), y+laneGap+rise
		l.Group(lane.label())
		if !lane.Hollow {
			marker(l.Canvas, n, draw.At(l.plot.Left+markerRadius+6, first-draw.SmallSize*0.35), false)
		}
		y = l.Lines("text small", "start", draw.At(l.plot.Left+laneShift+6, first), draw.SmallSize, l.laneWords(lane)) - rise + laneUnder
		l.lane(lane, n, y)
		l.EndGroup()
		y += laneBar + laneGap
	}
}

// lane draws a lane's bar from a height on, and the stroke of its middle.
func (l *layout) lane(lane Lane, n int, top float64) {
	class := draw.SeriesClass("fill", n)
	if lane.Hollow {
		class = "mark " + draw.SeriesClass("hollow", n)
	}
	across := func(x float64) float64 { return l.at(x, l.y.from).X }
	from, to, middle := across(min(lane.From, lane.To)), across(max(lane.From, lane.To)), across(lane.Middle)
	if from < to {
		l.Rect(class, draw.Box{Left: from, Top: top, Right: to, Bottom: top + laneBar})
	}
	l.Line("axis", draw.At(middle, top-laneMiddle), draw.At(middle, top+laneBar+laneMiddle))
}
