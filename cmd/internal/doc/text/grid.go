package text

import (
	"strings"
	"unicode/utf8"
)

// gridTable is plainTable without a library, for where that is too large to carry: each
// character counts as one wide.
func gridTable(header []string, rows [][]string, left []bool) string {
	widths := make([]int, len(header))
	for _, row := range append([][]string{header}, rows...) {
		for i, cell := range row {
			for line := range strings.SplitSeq(cell, "\n") {
				widths[i] = max(widths[i], utf8.RuneCountInString(line))
			}
		}
	}
	whole := 0
	for _, w := range widths {
		whole += w + len("  ")
	}
	lines := append(gridRow(header, widths, left), strings.Repeat("-", whole))
	for _, row := range rows {
		lines = append(lines, gridRow(row, widths, left)...)
	}
	return strings.Join(lines, "\n")
}

// gridRow is a row in as many lines as its longest cell has, a blank on either side of
// each cell.
func gridRow(row []string, widths []int, left []bool) (lines []string) {
	for n := 0; ; n++ {
		line, any := "", false
		for i, cell := range row {
			text := ""
			if parts := strings.Split(cell, "\n"); n < len(parts) {
				text, any = parts[n], true
			}
			room := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(text))
			if left[i] {
				text += room
			} else {
				text = room + text
			}
			line += " " + text + " "
		}
		if !any {
			return lines
		}
		lines = append(lines, strings.TrimRight(line, " "))
	}
}
