package report

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// document is an answer in blocks, each a paragraph or a table.
type document []block

type block struct {
	heading   string
	paragraph string
	list      []string
	table     *table
}

// table is rows of text under a header; a column named in wide is the last and
// takes the rest of the line, the others are set to the right but the first.
type table struct {
	header []string
	rows   [][]string
}

func (d *document) heading(text string)        { *d = append(*d, block{heading: clean(text)}) }
func (d *document) paragraph(text string)      { *d = append(*d, block{paragraph: clean(text)}) }
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

// lineWidth is the longest line of text, for a terminal of 80 columns.
const lineWidth = 79

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
				fmt.Fprintln(&out, s.item(clean(item)))
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

// render writes the table, as Markdown or with blank columns between.
func (t table) render(out *bytes.Buffer, markdown bool) error {
	align := make([]tw.Align, len(t.header))
	for i := range align {
		align[i] = tw.AlignRight
	}
	align[0] = tw.AlignLeft
	align[len(align)-1] = t.lastAlign()
	cell := func() tw.CellConfig {
		return tw.CellConfig{
			Formatting: tw.CellFormatting{AutoFormat: tw.Off, AutoWrap: tw.WrapNone},
			Alignment:  tw.CellAlignment{PerColumn: align},
		}
	}
	config := tablewriter.Config{Header: cell(), Row: cell(), Footer: cell()}
	var buffer bytes.Buffer
	writer := tablewriter.NewTable(&buffer, tablewriter.WithConfig(config), tablewriter.WithEastAsian(tw.Off),
		tablewriter.WithRenderer(t.renderer(markdown)))
	writer.Header(cells(t.header, markdown))
	rows := t.rows
	if !markdown && len(t.header) > roomyColumns {
		rows = folded(rows)
	}
	for _, row := range rows {
		if len(row) != len(t.header) {
			return fmt.Errorf("a row of %d cells under %d headings", len(row), len(t.header))
		}
		if err := writer.Append(cells(row, markdown)); err != nil {
			return err
		}
	}
	if err := writer.Render(); err != nil {
		return err
	}
	for line := range strings.Lines(buffer.String()) {
		out.WriteString(strings.TrimRight(line, " \n"))
		out.WriteByte('\n')
	}
	return nil
}

// On a terminal the first cell of a row of more than roomyColumns may be as long as
// nameWidth.
const (
	roomyColumns = 4
	nameWidth    = 17
)

// folded is rows whose long first cells go on in rows below.
func folded(rows [][]string) [][]string {
	var out [][]string
	for _, row := range rows {
		lines := strings.Split(wrappedTo(broken(clean(row[0]), nameWidth-2), "  ", nameWidth), "\n")
		out = append(out, append([]string{lines[0]}, row[1:]...))
		for _, line := range lines[1:] {
			below := make([]string, len(row))
			below[0] = line
			out = append(out, below)
		}
	}
	return out
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

// lastAlign sets a last column of words to the left, one of numbers to the right.
func (t table) lastAlign() tw.Align {
	for _, row := range t.rows {
		if strings.ContainsAny(row[len(row)-1], "0123456789") {
			return tw.AlignRight
		}
	}
	return tw.AlignLeft
}

func (t table) renderer(markdown bool) tw.Renderer {
	if markdown {
		return renderer.NewMarkdown()
	}
	return renderer.NewBlueprint(tw.Rendition{
		Borders: tw.BorderNone,
		Symbols: tw.NewSymbolCustom("gap").WithColumn(" ").WithRow("-").WithCenter(" "),
		Settings: tw.Settings{
			Separators: tw.Separators{BetweenRows: tw.Off, BetweenColumns: tw.Off},
			Lines:      tw.Lines{ShowHeaderLine: tw.On},
		},
	})
}

func cells(row []string, markdown bool) []string {
	out := make([]string, len(row))
	for i, cell := range row {
		if out[i] = clean(cell); markdown {
			out[i] = escaped(out[i])
		}
	}
	return out
}
