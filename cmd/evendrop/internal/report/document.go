package report

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"evendrop/cmd/internal/legible"
)

// document is an answer in blocks, each a paragraph or a table.
type document []block

type block struct {
	heading   string
	paragraph string
	list      []string
	table     *table
}

func (d *document) heading(text string)        { *d = append(*d, block{heading: legible.Line(text)}) }
func (d *document) paragraph(text string)      { *d = append(*d, block{paragraph: legible.Line(text)}) }
func (d *document) table(t table)              { *d = append(*d, block{table: &t}) }
func (d *document) bullets(sentences []string) { *d = append(*d, block{list: sentences}) }

// says tells whether a paragraph or a list of the document has the words.
func (d document) says(words string) bool {
	for _, b := range d {
		if strings.Contains(b.paragraph, words) || strings.Contains(strings.Join(b.list, " "), words) {
			return true
		}
	}
	return false
}

// style is how the blocks of a document are written.
type style struct {
	heading, paragraph, item func(string) string
	markdown                 bool
}

var terminalStyle = style{
	heading:   func(text string) string { return wrapped(text, "") },
	paragraph: func(text string) string { return wrapped(text, "") },
	item:      func(text string) string { return wrapped("- "+text, "  ") },
}

var markdownStyle = style{
	heading:   func(text string) string { return "## " + escaped(text) },
	paragraph: escaped,
	item:      func(text string) string { return "- " + escaped(text) },
	markdown:  true,
}

// text writes the document for a terminal.
func (d document) text() ([]byte, error) { return d.write(terminalStyle) }

// markdown writes the document as Markdown.
func (d document) markdown() ([]byte, error) { return d.write(markdownStyle) }

// write writes the blocks, a blank line between them.
func (d document) write(s style) ([]byte, error) {
	var out bytes.Buffer
	for i, b := range d {
		if i > 0 {
			out.WriteByte('\n')
		}
		switch {
		case b.heading != "":
			fmt.Fprintln(&out, s.heading(b.heading))
		case b.table != nil:
			if err := b.table.render(&out, s.markdown); err != nil {
				return nil, err
			}
		case b.list != nil:
			for _, item := range b.list {
				fmt.Fprintln(&out, s.item(legible.Line(item)))
			}
		default:
			fmt.Fprintln(&out, s.paragraph(b.paragraph))
		}
	}
	return out.Bytes(), nil
}

// escaped is text that Markdown shows as it stands.
func escaped(text string) string {
	return strings.NewReplacer(`\`, `\\`, "|", `\|`, "<", "&lt;", "*", `\*`, "_", `\_`, "`", "\\`", "[", `\[`, "#", `\#`).Replace(text)
}

// wrapped breaks text into lines, those after the first begun with indent.
func wrapped(text, indent string) string { return wrappedTo(text, indent, lineWidth) }

// wrappedTo is wrapped to a width; a longer word stands alone.
func wrappedTo(text, indent string, width int) string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
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
