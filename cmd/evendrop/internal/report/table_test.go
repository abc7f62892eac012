package report

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// A long name folds into what the other columns leave, and so does its heading. Here
// those are 6 + 9 + 6 + 8 + 5 + 17 characters wide, and with a blank on either side of
// each of seven cells leave 12 of the 77 that a terminal of 78 columns shows: on a
// narrower one the table goes row by row.
func TestLongNamesFold(t *testing.T) {
	t.Cleanup(func() { FitTo(80) })
	long := table{
		header: []string{"Mark, crank deg", "read", "should be", "off by", "± (95 %)", "limit", "verdict"},
		rows: [][]string{
			{"locking pin hole of the flywheel, upper left side", "-124.0", "-126.5", "+2.5", "0.4", "2", "too close to call"},
			{"notch", "3.0", "3.0", "0.0", "0.4", "1", "within"},
		},
	}
	for columns := 50; columns <= 90; columns++ {
		FitTo(columns)
		var out bytes.Buffer
		require.NoError(t, long.render(&out, false))
		for line := range strings.Lines(out.String()) {
			require.Less(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), columns, out.String())
		}
		for _, row := range append(long.rows, long.header) {
			for word := range strings.FieldsSeq(strings.Join(row, " ")) {
				require.Contains(t, strings.ReplaceAll(out.String(), ":\n", "\n"), word)
			}
		}
		require.Equal(t, columns >= 78, strings.Contains(out.String(), "---"), "%d\n%s", columns, out.String())
		require.Equal(t, columns < 78, strings.HasPrefix(out.String(), "Mark, crank deg:\n- locking pin"), "%d\n%s", columns, out.String())
	}
	FitTo(80)
	var out bytes.Buffer
	require.NoError(t, long.render(&out, false))
	require.Contains(t, out.String(), "\n notch  ")
	require.Regexp(t, `(?m)^ Mark, crank +read +should be.*\n   deg\n-+\n locking pin +-124\.0 .* too close to call\n   hole of the\n   flywheel,\n   upper left\n   side\n notch`, out.String())
}

// A name that fits stays on its line, however few or many the columns.
func TestNamesThatFitStayWhole(t *testing.T) {
	name := strings.Repeat("a name ", 7)
	for _, header := range [][]string{{"Mark", "at"}, {"Mark", "a", "b", "c", "d", "e"}} {
		row := append([]string{name}, header[1:]...)
		var out bytes.Buffer
		require.NoError(t, table{header: header, rows: [][]string{row}}.render(&out, false))
		require.Contains(t, out.String(), "\n "+name)
	}
}
