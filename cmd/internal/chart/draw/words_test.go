package draw_test

import (
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestShortened(t *testing.T) {
	require.Equal(t, "\u221212.5", draw.Pretty("-12.5"))
	require.Equal(t, "pin", draw.Shortened("pin", 100, 10))
	short := draw.Shortened("a name that is far too long", 60, 10)
	require.Regexp(t, "^a name.*…$", short)
	require.LessOrEqual(t, draw.TextWidth(short, 10), 60.0)
	require.Equal(t, []string{"one two", "three"}, draw.Wrapped("one two three", draw.TextWidth("one two", 10), 10, 3))
	require.Equal(t, []string{"one", "two th…"}, draw.Wrapped("one two three", draw.TextWidth("two th…", 10), 10, 2))
	require.InDelta(t, draw.TextWidth("e", 10), draw.TextWidth("e\u0301", 10), 1e-12) // an accent takes no room
}

// Words in lines are the words that were given, in their order, but where three dots say
// that some are left out; and no line is wider than it may be.
func TestWrapped(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		text := drawtest.Names.Draw(r, "text")
		width, most := drawtest.Between(40, 400).Draw(r, "width"), rapid.IntRange(1, 4).Draw(r, "most")
		lines := draw.Wrapped(text, width, draw.SmallSize, most)
		require.LessOrEqual(t, len(lines), most)
		for _, line := range lines {
			require.LessOrEqual(t, draw.TextWidth(line, draw.SmallSize), width+1e-9, "%q", line)
		}
		if joined := strings.Join(lines, " "); !strings.Contains(joined, "…") {
			require.Equal(t, strings.Join(strings.Fields(text), " "), joined)
		}
	})
}
