package report

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"

	"evendrop/cmd/evendrop/internal/legible"
)

// table is rows of text under a header: the first column set to the left, the
// others to the right, the last as its words ask for.
type table struct {
	header []string
	rows   [][]string
}

// render writes the table, as Markdown or with blank columns between. On a terminal long
// first cells fold into the room that the other columns leave; where that is too little
// the table goes row by row.
func (t table) render(out *bytes.Buffer, markdown bool) error {
	for _, row := range t.rows {
		if len(row) != len(t.header) {
			return fmt.Errorf("a row of %d cells under %d headings", len(row), len(t.header))
		}
	}
	header, rows := cells(t.header, markdown), make([][]string, len(t.rows))
	for i, row := range t.rows {
		rows[i] = cells(row, markdown)
	}
	if !markdown {
		all := append([][]string{header}, rows...)
		room := nameRoom(all)
		if room < min(leastName, columnWidth(all, 0)) {
			t.records(out)
			return nil
		}
		for _, row := range all {
			row[0] = foldedTo(row[0], room)
		}
	}
	return t.inColumns(out, header, rows, markdown)
}

// inColumns writes cells as they stand below one another.
func (t table) inColumns(out *bytes.Buffer, header []string, rows [][]string, markdown bool) error {
	align := make([]tw.Align, len(header))
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
		tablewriter.WithTrimSpace(tw.Off), tablewriter.WithRenderer(t.renderer(markdown)))
	writer.Header(header)
	if err := writer.Bulk(rows); err != nil {
		return err
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

// leastName is the narrowest column that a long name is folded into.
const leastName = 12

// nameRoom is the width that the other columns of a table, a blank on either side of
// each cell, leave to the first on a line.
func nameRoom(rows [][]string) int {
	room := lineWidth - len("  ")
	for i := 1; i < len(rows[0]); i++ {
		room -= len("  ") + columnWidth(rows, i)
	}
	return room
}

// columnWidth is the length of a column's longest cell, in characters.
func columnWidth(rows [][]string, column int) (width int) {
	for _, row := range rows {
		width = max(width, utf8.RuneCountInString(row[column]))
	}
	return width
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

// foldedTo is a first cell in lines no longer than width; a short one stays as it is.
func foldedTo(name string, width int) string {
	if utf8.RuneCountInString(name) <= width {
		return name
	}
	const indent = "  "
	return wrappedTo(broken(name, width-len(indent)), indent, width)
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
