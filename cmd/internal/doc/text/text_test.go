package text_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/text"
)

// usual is the longest line on a terminal of 80 columns.
const usual = 79

func sample() doc.Document {
	var d doc.Document
	d.Title("Bench engine")
	d.SayAs(doc.Finding, "The pin is 2.8 ± 0.3 deg late, and the crank wheel's gap with it; the notch on the pulley is where it should be.")
	t := doc.Table{Header: []string{"Mark, crank deg", "off by", "± (95 %)", "limit", "verdict"}}
	t.Add(doc.Outside, "locking pin hole in the flywheel's rim behind the starter", "+2.8", "0.3", "1", "outside")
	t.Add(doc.Within, "notch|*", "+0.1", "0.3", "2", "within")
	d.Table(t)
	d.List([]string{"one", "two words that go on and on until the line is too long for the terminal that they are written on"})
	d.Add(doc.Facts{{What: "Stroke", Is: "81.4 mm"}}, doc.Figure{SVG: []byte("<svg/>"), Text: "  *\n * *\n"}, doc.Figure{SVG: []byte("<svg/>")})
	d.SayAs(doc.Caution, "Turn by hand only.")
	return d
}

func TestTerminalKeepsToTheWidth(t *testing.T) {
	for _, width := range []int{60, usual, 120} {
		out, err := text.Terminal(sample(), width)
		require.NoError(t, err)
		for line := range strings.Lines(string(out)) {
			assert.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), width, line)
		}
		assert.Contains(t, string(out), "  *\n * *\n")
		assert.NotContains(t, string(out), "svg")
	}
}

// GitHub Flavored Markdown 4.10: a bar in a cell is escaped; CommonMark 2.4: so is what would be emphasis.
func TestMarkdownEscapes(t *testing.T) {
	out, err := text.Markdown(sample())
	require.NoError(t, err)
	assert.Contains(t, string(out), `notch\|\*`)
	assert.Contains(t, string(out), "# Bench engine\n")
	assert.Contains(t, string(out), "```\n  *\n * *\n```\n")
}

func TestNoEscapeCharacterPasses(t *testing.T) {
	var d doc.Document
	d.Say("red \x1b[31m\u202eturned")
	for _, write := range []func() ([]byte, error){
		func() ([]byte, error) { return text.Terminal(d, usual) },
		func() ([]byte, error) { return text.Markdown(d) },
	} {
		out, err := write()
		require.NoError(t, err)
		assert.NotContains(t, string(out), "\x1b")
		assert.NotContains(t, string(out), "\u202e")
	}
}

func TestRaggedRowsAreAnError(t *testing.T) {
	d := doc.Document{doc.Table{Header: []string{"a", "b"}, Rows: [][]string{{"1"}}}}
	_, err := text.Terminal(d, usual)
	assert.Error(t, err)
}
