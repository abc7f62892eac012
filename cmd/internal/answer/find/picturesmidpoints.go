package find

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/chart"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// midpointChart is the midpoints of equal drop against the drop: a line that
// should stand upright.
func (p Page) midpointChart(r tdc.Result) chart.Chart {
	c := chart.Chart{
		Title:       p.titled("Half-way between equal drops: the line should stand upright", r),
		Description: fmt.Sprintf("Midpoints of equal drop, in crank degrees from TDC, against the drop in mm, growing downward. %s", trend(r)),
		X:           fromTDC,
		Y:           chart.Axis{Label: "drop, mm", Down: true},
		Upright:     []chart.Band{p.tdcBand(r)},
	}
	c.Series = []chart.Series{uprightLine(r)}
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward, 0} {
		s := chart.Series{Name: "each flank turned its own way"}
		if turn != 0 {
			s.Name = "turned " + turn.String()
		}
		for _, l := range r.Levels {
			if l.Turn == turn && !again(s.Points, l) {
				s.Points = append(s.Points, chart.Point{
					X: r.FromTDC(l.Midpoint).Degrees(), Y: l.Drop.Millimetres(), XError: twice * l.Uncertainty.Degrees(),
				})
			}
		}
		if s.Points != nil {
			c.Series = append(c.Series, s)
		}
	}
	return c
}

// uprightLine is TDC at every drop, with room for words below the midpoints.
func uprightLine(r tdc.Result) chart.Series {
	deepest := 0.0
	for _, l := range r.Levels {
		deepest = max(deepest, l.Drop.Millimetres())
	}
	return chart.Series{Line: true, Points: []chart.Point{{}, {Y: 1.15 * deepest}}}
}

// again tells whether a level says what the point before it said: where both
// flanks were read at one depth, each asks for the same midpoint.
func again(points []chart.Point, l halve.Level) bool {
	if len(points) == 0 {
		return false
	}
	last := points[len(points)-1]
	const same = 0.002 // mm: far less than any gauge shows
	return math.Abs(last.Y-l.Drop.Millimetres()) < same
}
