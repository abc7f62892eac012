package main

import (
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// On a narrow terminal every line of an answer fits, and nothing is lost.
func TestAnswersFitANarrowTerminal(t *testing.T) {
	known := story + "known-good.toml"
	calls := [][]string{
		{"find", diagnostician}, {"find", diagnostician, "--every-reading", "--details"}, {"find", diagnostician, "--against", known},
		{"recheck", diagnostician, story + "after.toml"}, {"halve", "348.6", "11.8", "350", "10"}, {"convert", "2", "teeth", "--pitches", "60", "--radius", "65"},
		{"plan", diagnostician}, {"cautions"}, {"motion", "--stroke", "86", "--rod", "146", "--within", "0.1"},
		{"edges", story + "capture.csv", "--crank", "2", "--cam", "3", "--wheel", "60-2", "--against", story + "capture-healthy.csv"},
	}
	for _, args := range calls {
		_, wide, errs := ev(args...)
		require.Empty(t, errs)
		for _, columns := range []int{60, 40} {
			t.Run("", func(t *testing.T) {
				_, narrow, _ := evIn(columns, args...)
				if args[0] == "motion" {
					// a narrower plot has other numbers along its axes, and has no room in 40 columns
					narrow, _, _ = strings.Cut(narrow, "\ndrop, mm\n")
					wide, _, _ = strings.Cut(wide, "\ndrop, mm\n")
				}
				for line := range strings.Lines(narrow) {
					require.Less(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), columns, "%v\n%s", args, narrow)
				}
				for word := range strings.FieldsSeq(wide) {
					if word = strings.Trim(word, "-;:"); word != "" {
						require.Contains(t, narrow, word, "%v", args)
					}
				}
			})
		}
	}
}

// The width is the environment's, by POSIX.1-2017, XBD 8.3; a file has none.
func TestColumns(t *testing.T) {
	file, err := os.Create(t.TempDir() + "/file")
	require.NoError(t, err)
	defer file.Close()
	for text, want := range map[string]int{"60": 60, "": 0, "x": 0, "-3": 0, "0": 0} {
		t.Setenv("COLUMNS", text)
		require.Equal(t, want, columns(file), text)
	}
}
