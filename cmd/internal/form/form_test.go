package form

import (
	"encoding/csv"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// RFC 4180: a cell with a comma, a quote or a line end stands in quotes, its own
// doubled. What a spreadsheet would run (OWASP, "CSV Injection", from memory) is text
// behind a quote; a number, minus or not, is a number.
func TestCSV(t *testing.T) {
	for cell, want := range map[string]string{
		"pin": "pin", "a,b": "a,b", `say "so"`: `say "so"`, "two\nlines": "two\nlines", "": "",
		"=1+1": "'=1+1", "+1+1": "'+1+1", "@SUM(A1)": "'@SUM(A1)", "-2|3": "'-2|3", "\tx": "'\tx",
		"-2.5": "-2.5", "+3": "+3", "1e-7": "1e-7",
	} {
		data, err := CSV([][]string{{"kind", "name"}, {"mark", cell}})
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
		require.NoError(t, err)
		require.Equal(t, [][]string{{"kind", "name"}, {"mark", want}}, rows)
	}
}

func TestNumbers(t *testing.T) {
	require.Equal(t, "0.1", Digits(0.1), "the shortest that is read back the same")
	tenth, x := 0.1, 1.0/3
	require.Equal(t, "0.30000000000000004", Digits(tenth+2*tenth), "every digit")
	require.Equal(t, Digits(x), Known(&x))
	require.Empty(t, Known(nil))
	for _, none := range []float64{math.Inf(1), math.Inf(-1), math.NaN(), 2e9} {
		require.Nil(t, Finite(none), "%v is no number for JSON", none)
	}
	for _, number := range []float64{0, -5, 1e9} {
		require.Equal(t, number, *Finite(number))
	}
}

// JSON keeps a name as it was written: no tag is escaped, a program is to read it.
func TestJSON(t *testing.T) {
	data, err := JSON(struct {
		Head
		Name string `json:"name"`
	}{Format1, "<b> & co"})
	require.NoError(t, err)
	require.Equal(t, "{\n  \"program\": \"evendrop\",\n  \"format\": 1,\n  \"name\": \"<b> & co\"\n}\n", string(data))
	_, err = JSON(math.NaN())
	require.Error(t, err, "no number is no JSON")
}

// A terminal of so many columns gets lines a column shorter, within what can be read.
func TestWidth(t *testing.T) {
	for _, c := range []struct{ columns, want int }{{80, 79}, {60, 59}, {200, 79}, {10, 39}, {0, 79}} {
		width := Width(c.columns) // the last is not known: as of 80
		require.Equal(t, c.want, width, "%d columns", c.columns)
		for line := range strings.Lines(Wrap(strings.Repeat("word ", 40), width)) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), width)
		}
	}
}
