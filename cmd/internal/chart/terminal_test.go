package chart

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// A straight line from corner to corner, by hand: 11 columns and 11 rows.
func TestTerminalLine(t *testing.T) {
	c := Chart{X: Axis{Label: "deg", From: 0, To: 10}, Y: Axis{Label: "mm", From: 0, To: 10},
		Series: []Series{{Name: "line", Line: true, Points: []Point{{X: 0, Y: 0}, {X: 10, Y: 10}}}}}
	text, err := c.Terminal(16, 11)
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
		text, err := Chart{X: Axis{From: 0, To: 10}, Y: Axis{From: 0, To: 10, Down: down},
			Series: []Series{{Line: true, Points: []Point{{X: 0, Y: y}, {X: 10, Y: y}}}}}.Terminal(16, 11)
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

	steep, err := Chart{X: Axis{From: 0, To: 10}, Y: Axis{From: 0, To: 10},
		Series: []Series{{Line: true, Points: []Point{{X: 5, Y: 0}, {X: 5, Y: 10}}}}}.Terminal(16, 11)
	require.NoError(t, err)
	for _, row := range strings.Split(steep, "\n")[1:12] {
		require.Equal(t, "|", row[9:], steep)
	}
}

// Two lines that cross: each in its own letter, twice over where it is joined,
// and one cell where they are together.
func TestTerminalTogether(t *testing.T) {
	text, err := Chart{X: Axis{From: 0, To: 10}, Y: Axis{From: 0, To: 10}, Series: []Series{
		{Name: "up", Line: true, Points: []Point{{X: 0, Y: 0}, {X: 2, Y: 2}, {X: 10, Y: 10}}},
		{Name: "down", Line: true, Points: []Point{{X: 0, Y: 10}, {X: 10, Y: 0}}},
	}}.Terminal(16, 11)
	require.NoError(t, err)
	plot := strings.Join(strings.Split(text, "\n")[1:12], "")
	require.Equal(t, []int{10, 10, 1}, []int{strings.Count(plot, "A"), strings.Count(plot, "B"), strings.Count(plot, "*")}, text)
}

// Several series are letters with a key; bands are shades with a key; every line
// fits its width, and the plot itself is plain ASCII.
func TestTerminalOfMany(t *testing.T) {
	c := readings(true)
	for _, name := range hostile {
		c.Series = append(c.Series, Series{Name: name, Points: []Point{{X: 1, Y: 1}}})
	}
	text, err := c.Terminal(79, 19)
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
	c := readings(true)
	c.Series[0].Name, c.Y.Label = "red\x1b[31m", "mm\u202e"
	text, err := c.Terminal(79, 19)
	require.NoError(t, err)
	require.Contains(t, text, "A red[31m")
	require.NotContains(t, text, "\x1b")
	require.NotContains(t, text, "\u202e")
}

func TestTerminalNeedsRoom(t *testing.T) {
	_, err := readings(true).Terminal(12, 19)
	require.ErrorContains(t, err, "more room")
	_, err = readings(true).Terminal(79, 3)
	require.ErrorContains(t, err, "more room")
}
