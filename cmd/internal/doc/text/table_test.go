package text_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/text"

	"github.com/stretchr/testify/require"
)

// A long name folds into what the other columns leave, and so does its heading. Here
// those are 6 + 9 + 6 + 8 + 5 + 17 characters wide, and with a blank on either side of
// each of seven cells leave 12 of the 77 that a terminal of 78 columns shows: on a
// narrower one the table goes row by row.
func TestLongNamesFold(t *testing.T) {
	long := doc.Table{
		Header: []string{"Mark, crank deg", "read", "should be", "off by", "± (95 %)", "limit", "verdict"},
		Rows: [][]string{
			{"locking pin hole of the flywheel, upper left side", "-124.0", "-126.5", "+2.5", "0.4", "2", "too close to call"},
			{"notch", "3.0", "3.0", "0.0", "0.4", "1", "within"},
		},
	}
	for columns := 50; columns <= 90; columns++ {
		out := drawn(t, long, columns-1)
		for line := range strings.Lines(out) {
			require.Less(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), columns, out)
		}
		for _, row := range append(long.Rows, long.Header) {
			for word := range strings.FieldsSeq(strings.Join(row, " ")) {
				require.Contains(t, strings.ReplaceAll(out, ":\n", "\n"), word)
			}
		}
		require.Equal(t, columns >= 78, strings.Contains(out, "---"), "%d\n%s", columns, out)
		require.Equal(t, columns < 78, strings.HasPrefix(out, "Mark, crank deg:\n- locking pin"), "%d\n%s", columns, out)
	}
	out := drawn(t, long, usual)
	require.Contains(t, out, "\n notch  ")
	require.Regexp(t, `(?m)^ Mark, crank +read +should be.*\n   deg\n-+\n locking pin +-124\.0 .* too close to call\n   hole of the\n   flywheel,\n   upper left\n   side\n notch`, out)
}

// A name that fits stays on its line, however few or many the columns.
func TestNamesThatFitStayWhole(t *testing.T) {
	name := strings.Repeat("a name ", 7)
	for _, header := range [][]string{{"Mark", "at"}, {"Mark", "a", "b", "c", "d", "e"}} {
		row := append([]string{name}, header[1:]...)
		require.Contains(t, drawn(t, doc.Table{Header: header, Rows: [][]string{row}}, usual), "\n "+name)
	}
}

// drawn is a table on a terminal of a width.
func drawn(t *testing.T, table doc.Table, width int) string {
	t.Helper()
	out, err := text.Terminal(doc.Document{table}, width)
	require.NoError(t, err)
	return string(out)
}
