package typed_test

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session/typed"
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
		{"342.5 3.29", typed.TakeReading, "342.5", "3.29", 0, ""},
		{"  b\t11.8   0.70 # a note", typed.TakeReading, "11.8", "0.70", evidence.Backward, "a note"},
		{"F 12 BTDC 3.29 mm", typed.TakeReading, "12 BTDC", "3.29 mm", evidence.Forward, ""},
		{"342,5 3,29", typed.TakeReading, "342,5", "3,29", 0, ""},
		{"342,5; 3,29", typed.TakeReading, "342,5", "3,29", 0, ""},
		{"342.5, 3.29", typed.TakeReading, "342.5", "3.29", 0, ""},
		{"342.5,3.29", typed.TakeReading, "342.5", "3.29", 0, ""},
		{"342,.29", typed.TakeReading, "342", ".29", 0, ""},
		{`12°30' 0.13"`, typed.TakeReading, "12°30'", `0.13"`, 0, ""},
		{"-12.5 0.13 in", typed.TakeReading, "-12.5", "0.13 in", 0, ""},
		{"back 5 1", typed.TakeReading, "5", "1", evidence.Backward, ""},
		{"b", typed.TurnOnly, "", "", evidence.Backward, ""},
		{"forward", typed.TurnOnly, "", "", evidence.Forward, ""},
		{"UNDO", typed.Undo, "", "", 0, ""},
		{"?", typed.Help, "", "", 0, ""},
		{"# new pointer", typed.TakeRemark, "", "", 0, "new pointer"},
		{"", typed.Nothing, "", "", 0, ""},
		{"#", typed.Nothing, "", "", 0, ""},
		{"q", typed.Done, "", "", 0, ""},
	} {
		got, err := typed.Parse(c.line, setup, "mm")
		require.NoError(t, err, c.line)
		require.Equal(t, typed.Line{Order: c.order, Entry: sheet.Entry{Angle: c.angle, Depth: c.depth, Note: got.Entry.Note}, Note: c.note, Turn: c.turn}, got, c.line)
		if c.order == typed.TakeReading {
			require.Equal(t, c.note, got.Entry.Note, c.line)
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
		_, err := typed.Parse(line, setup, "mm")
		require.ErrorContains(t, err, says, line)
		require.True(t, utf8.ValidString(err.Error()))
		require.NotContains(t, err.Error(), "\x1b")
	}
	for line, set := range map[string]int{"set 2": 2, "SET 20 # moved": 20, "set\t1": 1} {
		got, err := typed.Parse(line, setup, "mm")
		require.NoError(t, err, line)
		require.Equal(t, typed.NewSet, got.Order, line)
		require.Equal(t, set, got.Set, line)
	}
	for _, line := range []string{"set", "set 0", "set -1", "set 21", "set 2 3", "set two", "set 2.0", "set 99999999999999999999"} {
		_, err := typed.Parse(line, setup, "mm")
		require.ErrorContains(t, err, "set goes with its number, from 1 to 20", line)
	}
	setup.Protractor.Scale = evidence.Quadrants
	_, err := typed.Parse("12 3.2", setup, "mm")
	require.ErrorContains(t, err, "12 BTDC or 12 ATDC")
}
