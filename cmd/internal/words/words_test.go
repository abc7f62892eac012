package words

import (
	"flag"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/geometry"
)

func TestCount(t *testing.T) {
	for _, c := range []struct {
		n           int
		thing, want string
	}{
		{0, "reading", "0 readings"},
		{1, "reading", "one reading"},
		{2, "reading", "2 readings"},
		{1, "tooth", "one tooth"},
		{3, "missing tooth", "3 missing teeth"}, // the last word counts
		{2, "pitch", "2 pitches"},
		{2, "axis", "2 axes"},
		{4, "inch", "4 inches"},
	} {
		require.Equal(t, c.want, Count(c.n, c.thing))
	}
}

func TestAndOr(t *testing.T) {
	for _, c := range []struct {
		list    []string
		and, or string
	}{
		{nil, "", ""},
		{[]string{"a"}, "a", "a"},
		{[]string{"a", "b"}, "a and b", "a or b"},
		{[]string{"a", "b", "c"}, "a, b and c", "a, b or c"},
	} {
		require.Equal(t, c.and, And(c.list))
		require.Equal(t, c.or, Or(c.list))
	}
}

func TestCapital(t *testing.T) {
	for text, want := range map[string]string{"": "", "the pin": "The pin", "ärm": "Ärm", "3 marks": "3 marks", "TDC": "TDC"} {
		require.Equal(t, want, Capital(text))
	}
}

// Letters are counted, not bytes, and nothing is longer than was asked.
func TestCut(t *testing.T) {
	require.Equal(t, "nockenwelle", Cut("nockenwelle", 11))
	require.Equal(t, "nockenwel…", Cut("nockenwelle", 10))
	require.Equal(t, "größ…", Cut("größer als", 5))
	rapid.Check(t, func(t *rapid.T) {
		text, most := rapid.String().Draw(t, "text"), rapid.IntRange(1, 20).Draw(t, "most")
		require.LessOrEqual(t, utf8.RuneCountInString(Cut(text, most)), most)
	})
}

// A shell takes the word as one, whatever is in it (POSIX.1-2017, Shell Command
// Language, 2.2.2 Single-Quotes).
func TestShellWord(t *testing.T) {
	for name, want := range map[string]string{
		"job.toml":     "job.toml",
		"my job.toml":  "'my job.toml'",
		"it's.toml":    `'it'\''s.toml'`,
		"a;b":          "'a;b'",
		"$HOME/x":      "'$HOME/x'",
		"dir/sub/j.ml": "dir/sub/j.ml",
	} {
		require.Equal(t, want, ShellWord(name))
	}
}

// Late is positive everywhere, and zero is not early.
func TestEarlyAndLate(t *testing.T) {
	deg := geometry.Degree
	for _, c := range []struct {
		off, half                geometry.Angle
		way, later, word, signed string
	}{
		{2.84 * deg, 0.31 * deg, "late", "later", "2.84 ± 0.31 deg late", "+2.84 ± 0.31"},
		{-2.84 * deg, 0.31 * deg, "early", "earlier", "2.84 ± 0.31 deg early", "-2.84 ± 0.31"},
		{-0.347 * deg, 0.012 * deg, "early", "earlier", "0.347 ± 0.012 deg early", "-0.347 ± 0.012"},
		{0, 0.15 * deg, "late", "later", "0.00 ± 0.15 deg", "0.00 ± 0.15"},
		{-0.04 * deg, 0.4 * deg, "early", "earlier", "0.0 ± 0.4 deg", "0.0 ± 0.4"},
		{-0.06 * deg, 0.4 * deg, "early", "earlier", "0.1 ± 0.4 deg early", "-0.1 ± 0.4"},
		{10 * deg, 4 * deg, "late", "later", "10 ± 4 deg late", "+10 ± 4"},
	} {
		require.Equal(t, c.way, Way(c.off))
		require.Equal(t, c.later, Later(c.off))
		require.Equal(t, c.word, Off(c.off, c.half))
		require.Equal(t, c.signed, SignedOff(c.off, c.half))
	}
}

// Random cases are the same every time, unless flags say otherwise.
func init() {
	for name, value := range map[string]string{"rapid.seed": "1924", "rapid.nofailfile": "true"} {
		if err := flag.Set(name, value); err != nil {
			panic(err)
		}
	}
}
