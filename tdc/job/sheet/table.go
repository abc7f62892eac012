package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"evendrop/tdc/job/source"
)

// Table is a file of rows under a header row, of columns that its reader knows.
type Table struct {
	sheet *sheet
	count int
	place map[string]int
}

// OpenTable reads the header row of a file. Its columns are among names, in any order, and
// the first so many of them are there. Whatever is wrong with the file is a *source.Error
// under its name.
func OpenTable(file string, data []byte, names []string, needed int) (*Table, error) {
	expected := "expected a header row such as " + strings.Join(names, ",")
	s, header, err := open(file, data, "no header row: "+expected)
	if err != nil {
		return nil, err
	}
	t := &Table{s, len(header), map[string]int{}}
	for i, title := range header {
		name := strings.ToLower(title)
		if !slices.Contains(names, name) {
			return nil, s.wrong(i, "%s: unknown column; %s", source.Quoted(title), source.Instead(title, names))
		}
		if _, twice := t.place[name]; twice {
			return nil, s.wrong(i, "a second column %s: expected one", name)
		}
		t.place[name] = i
	}
	for _, name := range names[:needed] {
		if _, is := t.place[name]; !is {
			return nil, s.wrong(0, "the header row has no column %s: %s", name, expected)
		}
	}
	return t, nil
}

// TableRow is a row of a table, while no other has been asked for.
type TableRow struct {
	Line   int
	table  *Table
	fields []string
}

// next is the next row; io.EOF after the last. A row with too many fields or too few is
// an error.
func (t *Table) next() (TableRow, error) {
	fields, err := t.sheet.next()
	if err != nil {
		return TableRow{}, err
	}
	line, _ := t.sheet.csv.FieldPos(0)
	if len(fields) != t.count {
		return TableRow{}, columns{sheet: t.sheet, count: t.count}.miscounted(len(fields))
	}
	return TableRow{line, t, fields}, nil
}

// Each gives every row to take; a file without rows, and one with more than most, is an
// error. Rows are what a row holds, such as answers.
func (t *Table) Each(most int, rows string, take func(TableRow) error) error {
	for n := 0; ; n++ {
		row, err := t.next()
		switch {
		case err == io.EOF && n == 0:
			return t.sheet.at(len(t.sheet.lines), 1, "no "+rows+" below the header row")
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		case n == most:
			return t.sheet.wrong(0, "more than %s %s in one file: make two of it", thousands(most), rows)
		}
		if err := take(row); err != nil {
			return err
		}
	}
}

// Of is the row's field in a column; "" where there is no such column.
func (r TableRow) Of(name string) string {
	if i, is := r.table.place[name]; is {
		return r.fields[i]
	}
	return ""
}

// Wrong is an error of the row's field in a column.
func (r TableRow) Wrong(name, format string, args ...any) error {
	problem := fmt.Errorf(format, args...)
	return columns{sheet: r.table.sheet, place: r.table.place}.wrong(r.fields, name, problem)
}
