package text

import "strings"

// plainTable is a table with blanks between its columns and a line under its header. A page
// carries no library for it: its tables are a browser's, and these are for who types list.
func plainTable(header []string, rows [][]string, left []bool) (string, error) {
	return gridTable(header, rows, left), nil
}

// markdownTable is a table as Markdown has it, its columns as wide as they are.
func markdownTable(header []string, rows [][]string, left []bool) (string, error) {
	line := func(cells []string) string { return "| " + strings.Join(cells, " | ") + " |" }
	var sides []string
	for _, is := range left {
		side := "---:"
		if is {
			side = ":---"
		}
		sides = append(sides, side)
	}
	lines := []string{line(header), line(sides)}
	for _, row := range rows {
		lines = append(lines, line(row))
	}
	return strings.Join(lines, "\n"), nil
}
