package report

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"

	"evendrop/cmd/internal/legible"
)

// table is rows of text under a header: the first column set to the left, the
// others to the right, the last as its words ask for.
type table struct {
	header []string
	rows   [][]string
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
	if !markdown && wider(buffer.String()) {
		t.records(out)
		return nil
	}
	for line := range strings.Lines(buffer.String()) {
		out.WriteString(strings.TrimRight(line, " \n"))
		out.WriteByte('\n')
	}
	return nil
}

// wider tells whether a line of text is wider than the terminal.
func wider(text string) bool {
	for line := range strings.Lines(text) {
		if utf8.RuneCountInString(strings.TrimRight(line, " \n")) > lineWidth {
			return true
		}
	}
	return false
}

// records writes the table row by row, each cell behind its heading, for a terminal that
// is too narrow for its columns.
func (t table) records(out *bytes.Buffer) {
	fmt.Fprintln(out, wrapped(t.header[0]+":", ""))
	for _, row := range t.rows {
		row = cells(row, false)
		var says []string
		for i, cell := range row[1:] {
			if cell != "" {
				says = append(says, strings.TrimSpace(t.header[i+1]+" "+cell))
			}
		}
		fmt.Fprintln(out, wrapped("- "+row[0]+": "+strings.Join(says, "; "), "  "))
	}
}

// longestCell is the longest text in a table, in characters.
const longestCell = 80

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
		lines := strings.Split(wrappedTo(broken(legible.Cut(legible.Line(row[0]), longestCell), nameWidth-2), "  ", nameWidth), "\n")
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
		if out[i] = legible.Cut(legible.Line(cell), longestCell); markdown {
			out[i] = escaped(out[i])
		}
	}
	return out
}
