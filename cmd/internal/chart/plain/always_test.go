package plain

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/chart/draw"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// between is a value to a thousandth, as finely as anything is read.
func between(low, high float64) *rapid.Generator[float64] {
	return rapid.Map(rapid.Float64Range(low, high), func(x float64) float64 { return math.Round(x*1e3) / 1e3 })
}

// names are what somebody may call a series: words of any length.
var names = rapid.StringMatching(`[a-zA-Z0-9 .,%±()-]{0,30}( [a-zA-Z]{1,40}){0,3}`)

// drawnChart is a chart with any names on it.
func drawnChart(t *rapid.T) chart.Chart {
	c := chart.Chart{X: chart.Axis{Label: "crank deg", Angle: true}, Y: chart.Axis{Label: "mm", Down: rapid.Bool().Draw(t, "down")}}
	for range rapid.IntRange(1, draw.SeriesStyles).Draw(t, "series") {
		s := chart.Series{Name: names.Draw(t, "name"), Line: rapid.Bool().Draw(t, "line")}
		for range rapid.IntRange(1, 5).Draw(t, "points") {
			s.Points = append(s.Points, chart.Point{X: between(-360, 360).Draw(t, "x"), Y: between(-1e3, 1e3).Draw(t, "y"), Doubtful: rapid.Bool().Draw(t, "doubtful")})
		}
		c.Series = append(c.Series, s)
	}
	for range rapid.IntRange(0, 2).Draw(t, "bands") {
		c.Upright = append(c.Upright, chart.Band{From: between(-300, 300).Draw(t, "from"), To: between(-300, 300).Draw(t, "to"), Label: names.Draw(t, "band")})
		c.Level = append(c.Level, chart.Band{From: between(-300, 300).Draw(t, "from"), To: between(-300, 300).Draw(t, "to"), Label: names.Draw(t, "limit")})
	}
	return c
}

// A point of a plot stands in the cell that its value falls in, counted from the
// corners, whichever way values grow.
func TestPlotIsToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := between(0, 100).Draw(t, "x"), between(0, 100).Draw(t, "y")
		down := rapid.Bool().Draw(t, "down")
		const columns, rows = 51, 21
		c := chart.Chart{X: chart.Axis{From: 0, To: 100}, Y: chart.Axis{From: 0, To: 100, Down: down}, Series: []chart.Series{{Points: []chart.Point{{X: x, Y: y}}}}}
		text, err := Plot(c, columns+6, rows) // three digits, a blank, the axis and one over
		require.NoError(t, err)
		found := 0
		for row, line := range strings.Split(text, "\n")[1 : rows+1] {
			column := strings.IndexByte(line, 'o') - 5
			if column < 0 {
				continue
			}
			found++
			high := 100 - 100*float64(row)/(rows-1)
			if down {
				high = 100 - high
			}
			require.InDelta(t, y, high, 50.0/(rows-1)+1e-9)
			require.InDelta(t, x, 100*float64(column)/(columns-1), 50.0/(columns-1)+1e-9)
		}
		require.Equal(t, 1, found)
	})
}

// No line of a plot is wider than the terminal, whatever the series are called.
func TestPlotFitsTheTerminal(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		c := drawnChart(r)
		width := rapid.IntRange(39, 120).Draw(r, "width")
		text, err := Plot(c, width, 12)
		require.NoError(t, err)
		for line := range strings.Lines(text) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), width, "%q", line)
		}
		for n := range c.Series {
			if len(c.Series) > 1 {
				require.Contains(t, text, fmt.Sprintf("%c ", 'A'+n), "every letter is in the key")
			}
		}
	})
}
