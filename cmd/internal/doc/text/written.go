//go:build !js

package text

import (
	"bytes"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// plainTable is a table with blanks between its columns and a line under its header.
func plainTable(header []string, rows [][]string, left []bool) (string, error) {
	return render(header, rows, left, renderer.NewBlueprint(tw.Rendition{
		Borders: tw.BorderNone,
		Symbols: tw.NewSymbolCustom("gap").WithColumn(" ").WithRow("-").WithCenter(" "),
		Settings: tw.Settings{
			Separators: tw.Separators{BetweenRows: tw.Off, BetweenColumns: tw.Off},
			Lines:      tw.Lines{ShowHeaderLine: tw.On},
		},
	}))
}

// markdownTable is a table as Markdown has it.
func markdownTable(header []string, rows [][]string, left []bool) (string, error) {
	return render(header, rows, left, renderer.NewMarkdown())
}

func render(header []string, rows [][]string, left []bool, by tw.Renderer) (string, error) {
	var align []tw.Align
	for _, is := range left {
		if is {
			align = append(align, tw.AlignLeft)
		} else {
			align = append(align, tw.AlignRight)
		}
	}
	config := func() tw.CellConfig {
		return tw.CellConfig{
			Formatting: tw.CellFormatting{AutoFormat: tw.Off, AutoWrap: tw.WrapNone},
			Alignment:  tw.CellAlignment{PerColumn: align},
		}
	}
	var buffer bytes.Buffer
	writer := tablewriter.NewTable(&buffer, tablewriter.WithConfig(tablewriter.Config{Header: config(), Row: config(), Footer: config()}),
		tablewriter.WithEastAsian(tw.Off), tablewriter.WithTrimSpace(tw.Off), tablewriter.WithRenderer(by))
	writer.Header(header)
	if err := writer.Bulk(rows); err != nil {
		return "", err
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
