package capture

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"evendrop/tdc/wheel/fault"
)

// Request is what the user says about a capture.
type Request struct {
	Time  string   // column, its number from 1 or its heading; "" when rows are evenly spaced at Rate
	Crank string   // column
	Cams  []string // columns
	Unit  TimeUnit // "" to take it from the units row
	Rate  float64  // samples a second; 0 when unknown
}

// columns are the columns asked for: time first if there is one, crank, cams.
func (q Request) columns() []string {
	wanted := append([]string{q.Crank}, q.Cams...)
	if q.Time != "" {
		wanted = append([]string{q.Time}, wanted...)
	}
	return wanted
}

// layout is how a capture's table is written.
type layout struct {
	separator, point byte
	header           int   // lines before the first row of numbers
	columns          []int // of the values asked for, from 0
	names            []string
	unit             TimeUnit // as the header tells; "" when it does not
	changes          bool     // a row comes when a signal changes
}

// headSize is how much of a capture is looked at to learn its layout.
const headSize = 64 << 10

// runOfRows is how many rows of numbers on end are data and no header.
const runOfRows = 3

// separators are what parts columns, the first the surest.
var separators = []byte{'\t', ';', ','}

var separatorName = map[byte]string{',': "comma", ';': "semicolon", '\t': "tab"}

// learn finds the layout under which most lines of the head have a number in
// every column asked for.
func learn(head []byte, q Request) (layout, error) {
	if err := readable(head); err != nil {
		return layout{}, err
	}
	lines := splitLines(head)
	var best layout
	most := 0
	for _, separator := range separators {
		columns, ok := resolve(lines, separator, q.columns())
		if !ok {
			continue
		}
		for _, point := range []byte{'.', ','} {
			l := layout{separator: separator, point: point, columns: columns}
			if n := l.count(lines, q.Time != ""); n > most {
				best, most = l, n
			}
		}
	}
	if most < runOfRows {
		return best, noTable(lines, q)
	}
	best.readHeader(lines, q)
	best.changes = q.Time != "" && best.listsChanges(lines)
	return best, nil
}

// readable refuses what is no text in an encoding that has one byte a digit.
func readable(head []byte) error {
	switch {
	case len(bytes.TrimSpace(head)) == 0:
		return fault.Errorf("the file is empty: expected rows of time and signals")
	case bytes.HasPrefix(head, []byte{0xff, 0xfe}) || bytes.HasPrefix(head, []byte{0xfe, 0xff}) || bytes.IndexByte(head, 0) >= 0:
		return fault.Errorf("the file is not plain text (UTF-16, or the scope's own format): export it as CSV in UTF-8 or ASCII")
	}
	return nil
}

// splitLines are the lines of the head, without a last one that it may cut short.
func splitLines(head []byte) [][]byte {
	head = bytes.TrimPrefix(head, []byte(byteOrderMark))
	lines := bytes.Split(head, []byte{'\n'})
	if len(head) >= headSize-len(byteOrderMark) && len(lines) > 1 {
		lines = lines[:len(lines)-1]
	}
	return lines
}

const byteOrderMark = "\ufeff"

// count is how many lines are rows of numbers.
func (l layout) count(lines [][]byte, timed bool) int {
	n := 0
	r := newRows(nil, l, timed)
	for _, line := range lines {
		if r.numeric(line) {
			n++
		}
	}
	return n
}

// numeric says whether a line has a number, or a word that stands for one, in
// every column asked for, and a true number for the time.
func (r *rows) numeric(line []byte) bool {
	var values [mostCams + 2]float64
	s, _ := r.parse(line, values[:])
	return s == row && slices.ContainsFunc(values[:len(r.layout.columns)], finite)
}

// readHeader finds the first row and what the lines before it tell.
func (l *layout) readHeader(lines [][]byte, q Request) {
	timed := q.Time != ""
	r := newRows(nil, *l, timed)
	run := 0
	for i, line := range lines {
		if !r.numeric(line) {
			run = 0
			continue
		}
		if run++; run == runOfRows {
			l.header = i + 1 - runOfRows
			break
		}
	}
	l.names = make([]string, len(l.columns))
	for i := l.header - 1; i >= 0; i-- {
		cells := headings(lines[i], l.separator)
		for slot, column := range l.columns {
			if column >= len(cells) {
				continue
			}
			if timed && slot == 0 && l.unit == "" {
				l.unit = unitIn(cells[column])
			}
			if l.names[slot] == "" || unitOnly(l.names[slot]) {
				l.names[slot] = cells[column]
			}
		}
	}
}

// noTable says why no layout fits, by the line with the most cells.
func noTable(lines [][]byte, q Request) error {
	if err := noHeading(lines, q); err != nil {
		return err
	}
	at, most, by := 0, 0, byte(',')
	for _, separator := range separators {
		for i, line := range lines {
			if n := bytes.Count(line, []byte{separator}) + 1; n > most {
				at, most, by = i, n, separator
			}
		}
	}
	wanted := strings.Join(q.columns(), ", ")
	problem := fmt.Sprintf("no %d rows on end have numbers in columns %s; this line has %d columns with %s between", runOfRows, wanted, most, separatorName[by])
	return (&fault.Fault{Line: at + 1, Problem: problem}).Or(fault.Columns)
}
