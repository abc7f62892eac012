package chart

import "strings"

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
		lines = append(lines, wrapped(line, l.plot.width()-laneShift-6, smallSize, laneLines)...)
	}
	return lines
}

// lanesHeight is the room under the plot for the lanes.
func (l *layout) lanesHeight() (height float64) {
	for _, lane := range l.Lanes {
		height += float64(len(l.laneWords(lane)))*smallSize*lineHeight + laneUnder + laneBar + 2*laneGap
	}
	return height
}

// lanes draws every lane under the one before it.
func (l *layout) lanes() {
	const rise = smallSize * 0.85 // of a letter above its line
	y := l.plot.bottom
	for _, lane := range l.Lanes {
		n, first := max(0, lane.With-1), y+laneGap+rise
		l.group(lane.label())
		if !lane.Hollow {
			l.marker(n, spot{l.plot.left + markerRadius + 6, first - smallSize*0.35}, false)
		}
		y = l.lines("text small", "start", spot{l.plot.left + laneShift + 6, first}, smallSize, l.laneWords(lane)) - rise + laneUnder
		l.lane(lane, n, y)
		l.endGroup()
		y += laneBar + laneGap
	}
}

// lane draws a lane's bar from a height on, and the stroke of its middle.
func (l *layout) lane(lane Lane, n int, top float64) {
	class := seriesClass("fill", n)
	if lane.Hollow {
		class = "mark " + seriesClass("hollow", n)
	}
	across := func(x float64) float64 { return l.at(x, l.y.from).x }
	from, to, middle := across(min(lane.From, lane.To)), across(max(lane.From, lane.To)), across(lane.Middle)
	if from < to {
		l.rect(class, box{from, top, to, top + laneBar})
	}
	l.line("axis", spot{middle, top - laneMiddle}, spot{middle, top + laneBar + laneMiddle})
}
