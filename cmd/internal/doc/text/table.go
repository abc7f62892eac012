package text

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
)

// table has blank columns between, and is folded into the width.
func (s terminal) table(t doc.Table) (string, error) {
	drawn, err := render(t.Header, folded(t, s.width), align(t), renderer.NewBlueprint(tw.Rendition{
		Borders: tw.BorderNone,
		Symbols: tw.NewSymbolCustom("gap").WithColumn(" ").WithRow("-").WithCenter(" "),
		Settings: tw.Settings{
			Separators: tw.Separators{BetweenRows: tw.Off, BetweenColumns: tw.Off},
			Lines:      tw.Lines{ShowHeaderLine: tw.On},
		},
	}), cell)
	if err == nil && wider(drawn, s.width) {
		return s.records(t), nil
	}
	return drawn, err
}

// wider tells whether a line of text is wider than the terminal.
func wider(text string, width int) bool {
	for line := range strings.Lines(text) {
		if utf8.RuneCountInString(strings.TrimRight(line, "\n")) > width {
			return true
		}
	}
	return false
}

// records is the table row by row, each cell behind its heading, for a terminal that
// is too narrow for its columns.
func (s terminal) records(t doc.Table) string {
	lines := []string{Wrap(t.Header[0]+":", "", s.width)}
	for _, row := range t.Rows {
		var says []string
		for i, text := range row[1:] {
			if text != "" {
				says = append(says, strings.TrimSpace(t.Header[i+1]+" "+cell(text)))
			}
		}
		lines = append(lines, s.item("-", cell(row[0])+": "+strings.Join(says, "; ")))
	}
	return strings.Join(lines, "\n")
}

// longestCell is the longest text in a table, in characters.
const longestCell = 80

// cell is text for a table.
func cell(text string) string { return legible.Cut(legible.Line(text), longestCell) }

func (markdown) table(t doc.Table) (string, error) {
	return render(t.Header, t.Rows, align(t), renderer.NewMarkdown(), func(text string) string { return escaped(cell(text)) })
}

// render draws rows under a header, every cell made fit for where it goes.
func render(header []string, rows [][]string, align []tw.Align, by tw.Renderer, fit func(string) string) (string, error) {
	config := func() tw.CellConfig {
		return tw.CellConfig{
			Formatting: tw.CellFormatting{AutoFormat: tw.Off, AutoWrap: tw.WrapNone},
			Alignment:  tw.CellAlignment{PerColumn: align},
		}
	}
	var buffer bytes.Buffer
	writer := tablewriter.NewTable(&buffer, tablewriter.WithConfig(tablewriter.Config{Header: config(), Row: config(), Footer: config()}),
		tablewriter.WithEastAsian(tw.Off), tablewriter.WithRenderer(by))
	writer.Header(mapped(header, fit))
	for _, row := range rows {
		if len(row) != len(header) {
			return "", fmt.Errorf("a row of %d cells under %d headings", len(row), len(header))
		}
		if err := writer.Append(mapped(row, fit)); err != nil {
			return "", err
		}
	}
	if err := writer.Render(); err != nil {
		return "", err
	}
	var lines []string
	for line := range strings.Lines(buffer.String()) {
		lines = append(lines, strings.TrimRight(line, " \n"))
	}
	return strings.Join(lines, "\n"), nil
}

func mapped(row []string, by func(string) string) []string {
	out := make([]string, len(row))
	for i, cell := range row {
		out[i] = by(cell)
	}
	return out
}

// align sets names and a last column of words to the left, the rest to the right.
func align(t doc.Table) []tw.Align {
	align := make([]tw.Align, len(t.Header))
	for i := range align {
		align[i] = tw.AlignRight
	}
	if !numbers(t) {
		align[len(align)-1] = tw.AlignLeft
	}
	align[0] = tw.AlignLeft
	return align
}

// numbers tells whether the last column has a digit in it.
func numbers(t doc.Table) bool {
	for _, row := range t.Rows {
		if len(row) > 0 && strings.ContainsAny(row[len(row)-1], "0123456789") {
			return true
		}
	}
	return false
}

// narrowest is the least that a name's column is folded to.
const narrowest = 12

// folded is rows whose long first cells go on in rows below, so that the table keeps
// to the width.
func folded(t doc.Table, width int) [][]string {
	const gaps = 2 // a blank either side of a column
	others := 0
	for column := 1; column < len(t.Header); column++ {
		widest := utf8.RuneCountInString(t.Header[column])
		for _, row := range t.Rows {
			if column < len(row) {
				widest = max(widest, utf8.RuneCountInString(row[column]))
			}
		}
		others += widest + gaps
	}
	room := max(narrowest, width-others-gaps)
	var out [][]string
	for _, row := range t.Rows {
		lines := strings.Split(Wrap(broken(cell(row[0]), room-2), "  ", room), "\n")
		out = append(out, append([]string{lines[0]}, row[1:]...))
		for _, line := range lines[1:] {
			below := make([]string, len(row))
			below[0] = line
			out = append(out, below)
		}
	}
	return out
}
