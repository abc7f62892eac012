package main

import (
	"html"
	"regexp"
	"strings"
)

var (
	// off by, ±, and the verdict, before which a limit stands where there is one
	textMark = regexp.MustCompile(`(?m)^.* ([+-]?[\d.]+) +([\d.]+) +(?:[\d.]+ +(within|outside|too close to call)|(no limit given))$`)
	// the same of a table that is too wide, each row behind its headings
	listedMark = regexp.MustCompile(`(?m)^- .*[;:] off by ([+-]?[\d.]+); ± \(95 %\) ([\d.]+); (?:limit [\d.]+; verdict (within|outside|too close to call)|verdict (no limit given))$`)
)

// sameMarks finds a mark of the text, Markdown or the page with another number or
// verdict than in JSON.
func (s *benched) sameMarks(form string, rows [][3]string, t answerTold) {
	marks := t.judged()
	if len(rows) != len(marks) {
		s.find("%s has %d marks and JSON %d", form, len(rows), len(marks))
		return
	}
	for i, m := range marks {
		s.agrees(form+": "+m.Name, strings.TrimPrefix(rows[i][0], "+"), *m.Off, false)
		s.agrees(form+": ± of "+m.Name, rows[i][1], m.Expanded, false)
		if places(rows[i][0]) != places(rows[i][1]) {
			s.find("%s: %s has other decimals than its ±: %s, %s", form, m.Name, rows[i][0], rows[i][1])
		}
		if rows[i][2] != m.said() {
			s.find("%s: %s is %q, and in JSON %q", form, m.Name, rows[i][2], m.said())
		}
	}
}

// places is how many decimals a number has.
func places(printed string) int {
	_, decimals, _ := strings.Cut(printed, ".")
	return len(decimals)
}

// section is the lines of a text below a table's heading, up to a blank one.
func section(out, heading string) string {
	_, below, _ := strings.Cut(out, heading)
	_, below, _ = strings.Cut(below, "\n")
	table, _, _ := strings.Cut(below, "\n\n")
	return table
}

// rowByRow is a table that was written row by row, each row on one line.
func rowByRow(table string) string { return strings.ReplaceAll(table, "\n  ", " ") }

// textMarks is the rows of the text's marks.
func textMarks(out string) (rows [][3]string) {
	table := section(out, "Mark, crank") // deg may stand below
	found := append(textMark.FindAllStringSubmatch(table, -1), listedMark.FindAllStringSubmatch(rowByRow(table), -1)...)
	for _, m := range found {
		rows = append(rows, [3]string{m[1], m[2], m[3] + m[4]})
	}
	return rows
}

// markdownCells is the rows of a Markdown table, a cell's own bars being escaped.
func markdownCells(table string) (rows [][]string) {
	for line := range strings.Lines(table) {
		line = strings.ReplaceAll(strings.TrimSpace(line), `\|`, "\x00")
		cells := strings.Split(strings.Trim(line, "|"), "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(strings.ReplaceAll(cells[i], "\x00", "|"))
		}
		rows = append(rows, cells)
	}
	return rows
}

// markdownMarks is the rows of Markdown's marks.
func markdownMarks(out string) (rows [][3]string) {
	for _, c := range markdownCells(section(out, "Mark, crank deg")) {
		if len(c) == 7 && strings.Trim(c[0], ":-") != "" {
			rows = append(rows, [3]string{c[3], c[4], c[6]})
		}
	}
	return rows
}

// pageTable is the rows of the page's table of a name, their cells as text.
func pageTable(out, name string) (rows [][]string) {
	_, table, _ := strings.Cut(out, `aria-label="`+name+`"`)
	table, _, _ = strings.Cut(table, "</table>")
	for _, row := range pageRows.FindAllStringSubmatch(table, -1) {
		var cells []string
		for _, cell := range pageCells.FindAllStringSubmatch(row[1], -1) {
			cells = append(cells, html.UnescapeString(cell[1]))
		}
		rows = append(rows, cells)
	}
	return rows
}

// pageMarks is the page's marks.
func pageMarks(out string) (rows [][3]string) {
	for _, c := range pageTable(out, "The marks") {
		rows = append(rows, [3]string{c[3], c[4], c[6]})
	}
	return rows
}

var (
	textThrow   = regexp.MustCompile(`(?m)^ (\d+) +` + shownAngle + ` +([+-]?[\d.]+|-)(?: +([\d.]+))?`)
	listedThrow = regexp.MustCompile(`(?m)^- (\d+): TDC at ` + shownAngle + `; throw off ([+-]?[\d.]+|-)(?:; ± deg ([\d.]+))?`)
)

// textThrows is the rows of the text's cylinders: number, TDC, throw off, its ±.
func textThrows(out string) (rows [][4]string) {
	found := append(textThrow.FindAllStringSubmatch(section(out, "\n Cylinder  "), -1),
		listedThrow.FindAllStringSubmatch(rowByRow(section(out, "\nCylinder:")), -1)...)
	for _, m := range found {
		rows = append(rows, [4]string{m[1], sidedNumber(m[2], m[3]), m[4], m[5]})
	}
	return rows
}

var (
	pageRows  = regexp.MustCompile(`(?m)^(?:<tbody>)?<tr[^>]*>(<th(?: dir="auto")?>.*)$`)
	pageCells = regexp.MustCompile(`<t[hd][^>]*>([^<]*)`)
	onePlace  = regexp.MustCompile(`^` + shownAngle + `$`)
)

// pageThrows is textThrows of the page.
func pageThrows(out string) (rows [][4]string) {
	for _, c := range pageTable(out, "The cylinders compared") {
		if at := onePlace.FindStringSubmatch(c[1]); at != nil {
			rows = append(rows, [4]string{c[0], sidedNumber(at[1], at[2]), c[2], c[3]})
		}
	}
	return rows
}

// sameThrows finds a cylinder that the text has elsewhere than JSON.
func (s *benched) sameThrows(form string, rows [][4]string, t answerTold) {
	if len(rows) != len(t.Throws) {
		s.find("%s has %d throws and JSON %d", form, len(rows), len(t.Throws))
		return
	}
	for i, row := range rows {
		s.agrees(form+": TDC of cylinder "+row[0], row[1], t.Cylinders[i].in(t.Throws[i].Set), true)
		if i > 0 {
			s.agrees(form+": throw of cylinder "+row[0], row[2], t.Throws[i].Off, false)
			s.agrees(form+": ± of throw of cylinder "+row[0], row[3], t.Throws[i].Expanded, false)
		}
	}
}
