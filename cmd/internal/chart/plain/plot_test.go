package plain

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"evendrop/cmd/internal/chart"

	"github.com/stretchr/testify/require"
)

// readings is a chart with all there is on it.
func readings() chart.Chart {
	return chart.Chart{
		X: chart.Axis{Label: "deg", From: -20, To: 20, Angle: true}, Y: chart.Axis{Label: "mm", Down: true},
		Series: []chart.Series{
			{Name: "fitted", Line: true, Points: []chart.Point{{X: -20, Y: 4}, {X: -10, Y: 1}, {X: 0, Y: 0}, {X: 15, Y: 2.25}}},
			{Name: "readings", Points: []chart.Point{{X: -10, Y: 3, YError: 0.5, XError: 2}, {X: 5, Y: 1, Doubtful: true, Label: "line 7"}}},
		},
		Upright: []chart.Band{{From: -1, To: 3, Label: "TDC"}},
		Level:   []chart.Band{{From: 2, To: 3, Label: "limit"}},
	}
}

// hostile are names that somebody may type into a job.
var hostile = []string{`<script>alert(1)</script>`, `a & b`, `"quoted" 'too'`, "שלום 12°", "مرحبا", "🔧 pin", "日本語の印"}

// A straight line from corner to corner, by hand: 11 columns and 11 rows.
func TestTerminalLine(t *testing.T) {
	c := chart.Chart{X: chart.Axis{Label: "deg", From: 0, To: 10}, Y: chart.Axis{Label: "mm", From: 0, To: 10},
		Series: []chart.Series{{Name: "line", Line: true, Points: []chart.Point{{X: 0, Y: 0}, {X: 10, Y: 10}}}}}
	text, err := Plot(c, 16, 11)
	require.NoError(t, err)
	rows := strings.Split(text, "\n")
	require.Equal(t, "mm", rows[0])
	for i, row := range rows[1:12] {
		cells := []rune(row)
		require.Equal(t, '-', cells[len(cells)-1], text)
		require.Len(t, cells, 4+11-i, text) // the margin, then column 10 - i
	}
	require.Equal(t, "10 +", rows[1][:4])
	require.Contains(t, rows[6], " |")
	require.Equal(t, "   ++-+-+-+-+-+", rows[12])
	require.Equal(t, "    0 2 4 6 8", rows[13]) // a 10 would touch the 8
	require.Equal(t, "deg", strings.TrimSpace(rows[14]))
}

// Thirds of a row show in the stroke; what is steep is upright; a value that
// grows downward goes down.
func TestTerminalStrokes(t *testing.T) {
	flat := func(y float64, down bool) string {
		text, err := Plot(chart.Chart{X: chart.Axis{From: 0, To: 10}, Y: chart.Axis{From: 0, To: 10, Down: down},
			Series: []chart.Series{{Line: true, Points: []chart.Point{{X: 0, Y: y}, {X: 10, Y: y}}}}}, 16, 11)
		require.NoError(t, err)
		for i, row := range strings.Split(text, "\n")[1:12] {
			if len(row) > 10 {
				return string(rune('a'+i)) + row[9:10]
			}
		}
		return text
	}
	require.Equal(t, "f-", flat(5, false)) // the sixth row of eleven
	require.Equal(t, "f'", flat(5.3, false))
	require.Equal(t, "f.", flat(4.7, false))
	require.Equal(t, "i-", flat(2, false))
	require.Equal(t, "c-", flat(2, true))
	require.Equal(t, "f.", flat(5.3, true))

	steep, err := Plot(chart.Chart{X: chart.Axis{From: 0, To: 10}, Y: chart.Axis{From: 0, To: 10},
		Series: []chart.Series{{Line: true, Points: []chart.Point{{X: 5, Y: 0}, {X: 5, Y: 10}}}}}, 16, 11)
	require.NoError(t, err)
	for _, row := range strings.Split(steep, "\n")[1:12] {
		require.Equal(t, "|", row[9:], steep)
	}
}

// Two lines that cross: each in its own letter, twice over where it is joined,
// and one cell where they are together.
func TestTerminalTogether(t *testing.T) {
	text, err := Plot(chart.Chart{X: chart.Axis{From: 0, To: 10}, Y: chart.Axis{From: 0, To: 10}, Series: []chart.Series{
		{Name: "up", Line: true, Points: []chart.Point{{X: 0, Y: 0}, {X: 2, Y: 2}, {X: 10, Y: 10}}},
		{Name: "down", Line: true, Points: []chart.Point{{X: 0, Y: 10}, {X: 10, Y: 0}}},
	}}, 16, 11)
	require.NoError(t, err)
	plot := strings.Join(strings.Split(text, "\n")[1:12], "")
	require.Equal(t, []int{10, 10, 1}, []int{strings.Count(plot, "A"), strings.Count(plot, "B"), strings.Count(plot, "*")}, text)
}

// Several series are letters with a key; bands are shades with a key; every line
// fits its width, and the plot itself is plain ASCII.
func TestTerminalOfMany(t *testing.T) {
	c := readings()
	for _, name := range hostile {
		c.Series = append(c.Series, chart.Series{Name: name, Points: []chart.Point{{X: 1, Y: 1}}})
	}
	text, err := Plot(c, 79, 19)
	require.NoError(t, err)
	rows := strings.Split(text, "\n")
	require.Equal(t, "mm", rows[0])
	for i, row := range rows {
		require.LessOrEqual(t, utf8.RuneCountInString(row), 79)
		if i > 0 && i < 22 {
			require.Regexp(t, `^[ -~]*$`, row)
		}
	}
	for _, key := range append([]string{"A fitted", "B readings", "* together", ": TDC", "= limit"}, hostile...) {
		require.Contains(t, text, key)
	}
	require.Contains(t, text, "?", "the doubtful reading")
	require.Contains(t, rows[1], ":", "the band goes from top to bottom")
	require.Contains(t, rows[19], ":")
}

func TestTerminalControls(t *testing.T) {
	c := readings()
	c.Series[0].Name, c.Y.Label = "red\x1b[31m", "mm\u202e"
	text, err := Plot(c, 79, 19)
	require.NoError(t, err)
	require.Contains(t, text, "A red[31m")
	require.NotContains(t, text, "\x1b")
	require.NotContains(t, text, "\u202e")
}

func TestTerminalNeedsRoom(t *testing.T) {
	_, err := Plot(readings(), 12, 19)
	require.ErrorContains(t, err, "more room")
	_, err = Plot(readings(), 79, 3)
	require.ErrorContains(t, err, "more room")
}

func TestPlotRefuses(t *testing.T) {
	_, err := Plot(chart.Chart{}, 79, 10)
	require.ErrorContains(t, err, "at least one point")
	c := readings()
	c.Series[1].Points[0].Y = math.Inf(1)
	_, err = Plot(c, 79, 10)
	require.ErrorContains(t, err, `"readings"`)
}
