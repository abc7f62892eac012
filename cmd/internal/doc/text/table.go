package text

import (
	"slices"
	"strings"
	"unicode/utf8"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/legible"
)

// table has blank columns between. Long first cells fold into the room that the
// other columns leave; where that is too little the table goes row by row.
func (s terminal) table(t doc.Table) (string, error) {
	all := append([][]string{mapped(t.Header, cell)}, t.Rows...)
	for i, row := range t.Rows {
		all[i+1] = mapped(row, cell)
	}
	room := s.nameRoom(all)
	if room < min(leastName, columnWidth(all, 0)) {
		return s.records(t), nil
	}
	for _, row := range all {
		row[0] = foldedTo(row[0], room)
	}
	return plainTable(all[0], all[1:], lefts(t))
}

// leastName is the narrowest column that a long name is folded into.
const leastName = 12

// nameRoom is the width that the other columns of a table, a blank on either side of
// each cell, leave to the first on a line.
func (s terminal) nameRoom(rows [][]string) int {
	room := s.width - len("  ")
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

// foldedTo is a first cell in lines no longer than width; a short one stays as it is.
func foldedTo(name string, width int) string {
	if utf8.RuneCountInString(name) <= width {
		return name
	}
	const indent = "  "
	return Wrap(broken(name, width-len(indent)), indent, width)
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

const longestCell = 80

func cell(text string) string { return legible.Cut(legible.Line(text), longestCell) }

func (markdown) table(t doc.Table) (string, error) {
	fit := func(text string) string { return escaped(cell(text)) }
	rows := make([][]string, len(t.Rows))
	for i, row := range t.Rows {
		rows[i] = mapped(row, fit)
	}
	return markdownTable(mapped(t.Header, fit), rows, lefts(t))
}

func mapped(row []string, by func(string) string) []string {
	out := make([]string, len(row))
	for i, cell := range row {
		out[i] = by(cell)
	}
	return out
}

// lefts tells which columns are set to the left: names, and a last column of words.
func lefts(t doc.Table) []bool {
	left := make([]bool, len(t.Header))
	left[len(left)-1] = !slices.ContainsFunc(t.Rows, endsInNumber)
	left[0] = true
	return left
}

func endsInNumber(row []string) bool { return strings.ContainsAny(row[len(row)-1], "0123456789") }
