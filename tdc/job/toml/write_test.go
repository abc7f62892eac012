package toml_test

import (
	"testing"
	"unicode"
	"unicode/utf8"

	library "github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/toml"
)

// A text of every character there is comes back, through the library and through the
// reader beside the writer; none of it steers a terminal.
func TestQuoteComesBack(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if utf8.ValidRune(r) && (r < 0x3000 || r%0x101 == 0) {
			text := "a" + string(r) + `"\b`
			file := "key = " + string(toml.Quote(text)) + "\n"
			var read struct{ Key string }
			require.NoError(t, library.Unmarshal([]byte(file), &read), file)
			require.Equal(t, text, read.Key, "%U", r)
			doc, err := toml.Parse([]byte(file))
			require.NoError(t, err, file)
			v, _ := doc.Root.Get("key")
			require.Equal(t, text, v.Text, "%U", r)
			for _, shown := range file[:len(file)-1] {
				require.True(t, unicode.IsPrint(shown), "%U", r)
			}
		}
	}
	require.EqualValues(t, "\"a\ufffdb\"", toml.Quote("a\xffb"))
}

// A file is written a line at a time, comments where they are wanted, and no name that
// somebody made up begins a line of its own.
func TestWriter(t *testing.T) {
	for column, want := range map[int]string{
		0:  "# a\n#\n# b?\n\n[engine]\nrod = 133 # mm\n# bore = \"3 in\"\n\n[[mark]]\nread = [3.80, -0.5] # x?y\n\n",
		16: "# a\n#\n# b?\n\n[engine]\nrod = 133       # mm\n# bore = \"3 in\"\n\n[[mark]]\nread = [3.80, -0.5] # x?y\n\n",
	} {
		w := toml.Writer{Column: column}
		w.Say("a\n\nb%s", "\x1b")
		w.Table("engine")
		w.Key("rod", toml.Number(133), "mm")
		w.KeyIf(false, "bore", toml.Quote("3 in"), "")
		w.Next("mark")
		w.KeyIf(true, "read", toml.List("3.80", toml.Number(-0.5)), "x\ny")
		w.Blank()
		require.Equal(t, want, string(w.Bytes()))
	}
}

// Numbers are in plain decimals, and zero has no sign.
func TestNumber(t *testing.T) {
	negative := -1.0
	for x, want := range map[float64]toml.Literal{1e-7: "0.0000001", 1e21: "1000000000000000000000", -0.25: "-0.25", 0 * negative: "0", 81.4: "81.4"} {
		require.Equal(t, want, toml.Number(x))
	}
}
