package legible_test

import (
	"bytes"
	"encoding/json"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/legible"
)

// The characters that turn the direction round are those of Unicode Standard Annex 9,
// table 4 and 3.1; writing from right to left is text like any other.
func TestText(t *testing.T) {
	for text, want := range map[string]string{
		"a\x1b[31mb":          `a\u001b[31mb`,
		"bell\a, back\b\r":    `bell\u0007, back\u0008\u000d`,
		"c1 \u009b31m \x7f":   `c1 \u009b31m \u007f`,
		"raw \x9b31m":         "raw \ufffd31m",
		"lines\nand\ttabs":    "lines\nand\ttabs",
		"\u2028\u2029":        `\u2028\u2029`,
		"שלום مرحبا ± 12°30'": "שלום مرحبا ± 12°30'",
		"می\u200cخواهم":       "می\u200cخواهم", // a joiner of Persian spelling
	} {
		require.Equal(t, want, legible.Text(text))
	}
	require.Equal(t, `a b c \u001b`, legible.Line("a\r\nb\tc \x1b"))
	for _, r := range "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069" {
		require.NotContains(t, legible.Text("a"+string(r)+"b"), string(r))
	}
}

// Of JSON the meaning stays: every character comes back.
func TestWriterKeepsJSON(t *testing.T) {
	for r := rune(0); r < 0x2100; r++ {
		var out bytes.Buffer
		data, err := json.Marshal("a" + string(r))
		require.NoError(t, err)
		n, err := legible.Writer(&out).Write(data)
		require.NoError(t, err)
		require.Equal(t, len(data), n)
		var back string
		require.NoError(t, json.Unmarshal(out.Bytes(), &back))
		require.Equal(t, "a"+string(r), back)
		require.False(t, unicode.Is(unicode.Bidi_Control, []rune(out.String())[2]))
	}
}
