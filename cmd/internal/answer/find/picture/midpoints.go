package picture

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/chart"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// midpointChart is the midpoints of equal drop against the drop: a line that
// should stand upright.
func (b Book) midpointChart(r tdc.Result) chart.Chart {
	c := chart.Chart{
		Title:       b.titled("Half-way between equal drops: the line should stand upright", r),
		Description: fmt.Sprintf("Midpoints of equal drop, in crank degrees from TDC, against the drop in %s, growing downward. %s", b.Bench.Unit(), b.Trend(r)),
		X:           fromTDC,
		Y:           chart.Axis{Label: "drop, " + b.Bench.Unit(), Down: true},
		Upright:     []chart.Band{b.tdcBand(r)},
	}
	c.Series = []chart.Series{b.uprightLine(r)}
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward, 0} {
		s := chart.Series{Name: "each flank turned its own way"}
		if turn != 0 {
			s.Name = "turned " + turn.String()
		}
		var last *halve.Level
		for i, l := range r.Levels {
			if l.Turn == turn && !again(last, l) {
				last = &r.Levels[i]
				s.Points = append(s.Points, chart.Point{
					X: r.FromTDC(l.Midpoint).Degrees(), Y: b.Bench.In(l.Drop), XError: twice * l.Uncertainty.Degrees(),
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
func (b Book) uprightLine(r tdc.Result) chart.Series {
	deepest := 0.0
	for _, l := range r.Levels {
		deepest = max(deepest, b.Bench.In(l.Drop))
	}
	return chart.Series{Line: true, Points: []chart.Point{{}, {Y: 1.15 * deepest}}}
}

// again tells whether a level says what the one before it said: where both flanks
// were read at one depth, each asks for the same midpoint.
func again(last *halve.Level, l halve.Level) bool {
	const same = 0.002 * geometry.Millimetre // far less than any gauge shows
	return last != nil && math.Abs(float64(last.Drop-l.Drop)) < float64(same)
}
