package session

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// The lines that are readings, and what is said of those that are not.
func TestJotLines(t *testing.T) {
	setup := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
	for _, c := range []struct {
		line         string
		order        string
		angle, depth string
		turn         evidence.TurnDirection
		note         string
	}{
		{"342.5 3.29", takeReading, "342.5", "3.29", 0, ""},
		{"  b\t11.8   0.70 # a note", takeReading, "11.8", "0.70", evidence.Backward, "a note"},
		{"F 12 BTDC 3.29 mm", takeReading, "12 BTDC", "3.29 mm", evidence.Forward, ""},
		{"342,5 3,29", takeReading, "342,5", "3,29", 0, ""},
		{"342,5; 3,29", takeReading, "342,5", "3,29", 0, ""},
		{"342.5, 3.29", takeReading, "342.5", "3.29", 0, ""},
		{"342.5,3.29", takeReading, "342.5", "3.29", 0, ""},
		{"342,.29", takeReading, "342", ".29", 0, ""},
		{`12°30' 0.13"`, takeReading, "12°30'", `0.13"`, 0, ""},
		{"-12.5 0.13 in", takeReading, "-12.5", "0.13 in", 0, ""},
		{"back 5 1", takeReading, "5", "1", evidence.Backward, ""},
		{"b", turnOnly, "", "", evidence.Backward, ""},
		{"forward", turnOnly, "", "", evidence.Forward, ""},
		{"UNDO", undo, "", "", 0, ""},
		{"?", help, "", "", 0, ""},
		{"# new pointer", takeRemark, "", "", 0, "new pointer"},
		{"", nothing, "", "", 0, ""},
		{"#", nothing, "", "", 0, ""},
		{"q", done, "", "", 0, ""},
	} {
		got, err := parseLine(c.line, setup, "mm")
		require.NoError(t, err, c.line)
		require.Equal(t, typed{order: c.order, entry: sheet.Entry{Angle: c.angle, Depth: c.depth, Note: got.entry.Note}, note: c.note, turn: c.turn}, got, c.line)
		if c.order == takeReading {
			require.Equal(t, c.note, got.entry.Note, c.line)
		}
	}
	for line, says := range map[string]string{
		"342.5":            "angle and a depth",
		"342,3":            "angle and a depth",
		"undo 3":           "undo goes alone",
		"1 2 3":            "not a reading",
		"deep 3.2":         "not a reading",
		"b deep":           "not a reading",
		"1000 3.2":         "not on a protractor",
		"\x1b[A\x00 \xff":  "not a reading",
		"342.5 3.29 4 5 6": "not a reading",
	} {
		_, err := parseLine(line, setup, "mm")
		require.ErrorContains(t, err, says, line)
		require.True(t, utf8.ValidString(err.Error()))
		require.NotContains(t, err.Error(), "\x1b")
	}
	for line, set := range map[string]int{"set 2": 2, "SET 20 # moved": 20, "set\t1": 1} {
		got, err := parseLine(line, setup, "mm")
		require.NoError(t, err, line)
		require.Equal(t, newSet, got.order, line)
		require.Equal(t, set, got.set, line)
	}
	for _, line := range []string{"set", "set 0", "set -1", "set 21", "set 2 3", "set two", "set 2.0", "set 99999999999999999999"} {
		_, err := parseLine(line, setup, "mm")
		require.ErrorContains(t, err, "set goes with its number, from 1 to 20", line)
	}
	setup.Protractor.Scale = evidence.Quadrants
	_, err := parseLine("12 3.2", setup, "mm")
	require.ErrorContains(t, err, "12 BTDC or 12 ATDC")
}
