// Package text writes a document for a terminal or a pipe, and as Markdown.
package text

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
)

// Terminal is the document in lines no longer than width where words and tables
// allow it. Emphasis is left to the order and to the words. An error is of a table that
// cannot be drawn.
func Terminal(d doc.Document, width int) ([]byte, error) { return write(d, terminal{width}) }

// Markdown is the document as Markdown, a paragraph a line. An error is of a table that
// cannot be drawn.
func Markdown(d doc.Document) ([]byte, error) { return write(d, markdown{}) }

type style interface {
	heading(h doc.Heading) string
	paragraph(text string) string
	item(mark, text string) string
	table(t doc.Table) (string, error)
	fact(f doc.Fact) string
	verbatim(text string) string
}

// write writes the blocks, a blank line between them.
func write(d doc.Document, s style) ([]byte, error) {
	var out bytes.Buffer
	for _, block := range plain(d) {
		text, err := written(block, s)
		if err != nil {
			return nil, err
		}
		if text == "" {
			continue
		}
		if out.Len() > 0 {
			out.WriteByte('\n')
		}
		out.WriteString(strings.TrimRight(text, "\n"))
		out.WriteByte('\n')
	}
	return out.Bytes(), nil
}

func written(block doc.Block, s style) (string, error) {
	switch b := block.(type) {
	case doc.Heading:
		return s.heading(b), nil
	case doc.Paragraph:
		return s.paragraph(b.Text), nil
	case doc.List:
		return items(b, s), nil
	case doc.Table:
		for _, row := range b.Rows {
			if len(row) != len(b.Header) {
				return "", fmt.Errorf("a row of %d cells under %d headings", len(row), len(b.Header))
			}
		}
		return s.table(b)
	case doc.Facts:
		var lines []string
		for _, f := range b {
			lines = append(lines, s.fact(f))
		}
		return strings.Join(lines, "\n"), nil
	case doc.Figure:
		return s.verbatim(b.Text), nil
	case doc.Verbatim:
		return s.verbatim(string(b)), nil
	}
	return "", fmt.Errorf("a document with a %T in it", block)
}

func items(l doc.List, s style) string {
	var lines []string
	for i, item := range l.Items {
		mark := "-"
		if l.Ordered {
			mark = fmt.Sprintf("%d.", i+1)
		}
		lines = append(lines, s.item(mark, item))
	}
	return strings.Join(lines, "\n")
}

// terminal is plain lines no longer than width.
type terminal struct{ width int }

func (s terminal) heading(h doc.Heading) string { return s.paragraph(h.Text) }
func (s terminal) paragraph(text string) string { return Wrap(text, "", s.width) }
func (s terminal) verbatim(text string) string  { return text }
func (s terminal) fact(f doc.Fact) string       { return Wrap(f.What+": "+f.Is, "  ", s.width) }
func (s terminal) item(mark, text string) string {
	return Wrap(mark+" "+text, strings.Repeat(" ", len(mark)+1), s.width)
}

// markdown escapes what Markdown would take for its own.
type markdown struct{}

func (markdown) heading(h doc.Heading) string {
	return strings.Repeat("#", h.Level) + " " + escaped(h.Text)
}
func (markdown) paragraph(text string) string  { return escaped(text) }
func (markdown) item(mark, text string) string { return mark + " " + escaped(text) }
func (markdown) fact(f doc.Fact) string {
	return "- **" + escaped(f.What) + "**: " + escaped(f.Is)
}
func (markdown) verbatim(text string) string {
	if text == "" {
		return ""
	}
	return "```\n" + strings.TrimRight(legible.Text(text), "\n") + "\n```"
}

// special is what Markdown shows as it stands only when escaped.
var special = strings.NewReplacer(`\`, `\\`, "|", `\|`, "<", "&lt;", "*", `\*`, "_", `\_`, "`", "\\`", "[", `\[`, "#", `\#`)

func escaped(text string) string { return special.Replace(legible.Line(text)) }

// Wrap breaks text into lines no longer than width, those after the first begun
// with indent; a longer word stands alone.
func Wrap(text, indent string, width int) string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(legible.Line(text)) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width:
			lines = append(lines, line)
			line = indent + word
		default:
			line += " " + word
		}
	}
	return strings.Join(append(lines, line), "\n")
}

// broken is text with a blank in every word that is longer than width.
func broken(text string, width int) string {
	var out strings.Builder
	run := 0
	for _, r := range text {
		if run++; r == ' ' {
			run = 0
		} else if run > width {
			out.WriteByte(' ')
			run = 1
		}
		out.WriteRune(r)
	}
	return out.String()
}
