package sheet

import (
	"bytes"
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/source"
)

// Entry is a reading as somebody types it.
type Entry struct {
	Angle, Depth string // forms that ParseAngle and ParseLength read; of a lobe the lift
	Turn         evidence.TurnDirection
	Note         string
	Set          int // 0 is 1
}

// Page is a readings file taken apart so that it can be added to.
type Page struct {
	Text    []byte // with lines that end in a newline, whatever the file's end in
	Added   []byte // what of it was put below the file's own
	of      Kind
	mark    bool // begins with a byte order mark
	LineEnd string
	own     []string // line ends that the file's lines have, in their order; LineEnd beyond them
	columns columns
	header  int    // offset of the header row's end; 0 of none
	ends    []int  // offsets of the readings' ends
	lines   []int  // that the readings begin on, from 1
	decimal string // "." or "," where a reading shows which is used
}

// Kind is what a sheet is of: the piston's depths or a cam lobe's lifts.
type Kind int

// The kinds of sheets that are written into at the bench.
const (
	Depths Kind = iota
	Lifts
)

func (k Kind) kind() kind { return []kind{depths, lifts}[k] }

// NewHeader is the header row of a file that has none.
func (k Kind) NewHeader() string { return strings.Join(k.kind().fresh, ",") + "\n" }

// NewPage takes a file's data apart, lengths without a unit in unit; an error has its place.
func NewPage(name string, data []byte, of Kind, unit string) (Page, error) {
	p := Page{of: of, LineEnd: source.LineEnd(data), own: lineEnds(data), mark: bytes.HasPrefix(data, []byte("\ufeff"))}
	var err error
	if p.Text, err = source.PlainText(name, source.Newlines(data)); err != nil {
		return p, err
	}
	s := newSheet(name, p.Text)
	header, err := s.next()
	if err == io.EOF {
		p.Put(of.NewHeader())
		headed, err := NewPage(name, p.Data(), of, unit)
		headed.Added = p.Added
		return headed, err
	}
	if err != nil {
		return p, err
	}
	if p.columns, err = newColumns(s, of.kind(), header, unit); err != nil {
		return p, err
	}
	p.header = int(s.csv.InputOffset())
	for {
		row, err := s.next()
		if err == io.EOF {
			return p, nil
		}
		if err != nil {
			return p, err
		}
		p.note(row)
	}
}

// note takes down where a reading stands, and its decimals.
func (p *Page) note(row []string) {
	s := p.columns.sheet
	line, _ := s.csv.FieldPos(0)
	p.lines = append(p.lines, line)
	p.ends = append(p.ends, int(s.csv.InputOffset()))
	for _, name := range p.columns.kind.names[:2] {
		if i := p.columns.place[name]; i < len(row) && p.decimal == "" && strings.ContainsAny(row[i], ".,") {
			p.decimal = string(row[i][strings.IndexAny(row[i], ".,")])
		}
	}
}

// Data is the page as the file has it, each line with the end that it had.
func (p Page) Data() []byte {
	var data []byte
	if p.mark {
		data = append(data, "\ufeff"...)
	}
	i := 0
	for line := range bytes.Lines(p.Text) {
		text, ended := bytes.CutSuffix(line, []byte("\n"))
		data = append(data, text...)
		switch {
		case ended && i < len(p.own):
			data = append(data, p.own[i]...)
		case ended:
			data = append(data, p.LineEnd...)
		}
		i++
	}
	return data
}

// lineEnds is what each line of data ends in.
func lineEnds(data []byte) (ends []string) {
	for i, b := range data {
		switch {
		case b == '\n' && i > 0 && data[i-1] == '\r':
			ends[len(ends)-1] = "\r\n"
		case b == '\n' || b == '\r':
			ends = append(ends, string(b))
		}
	}
	return ends
}

// Filed is text with the file's line ends.
func (p Page) Filed(text []byte) []byte {
	return bytes.ReplaceAll(text, []byte("\n"), []byte(p.LineEnd))
}

// Add puts a reading below the others, and tells whether that left what was there
// before as it was.
func (p *Page) Add(e Entry) (appended bool) {
	missing := p.missing(e)
	if len(missing) > 0 {
		p.widen(missing)
	}
	p.Put(string(p.row(make([]string, p.columns.count), p.texts(e))))
	return len(missing) == 0
}

// missing is the columns that an entry needs and the page does not have.
func (p *Page) missing(e Entry) (names []string) {
	for _, column := range []struct {
		name   string
		needed bool
	}{{"turn", e.Turn == evidence.Backward}, {"set", e.Set > 1}, {"note", e.Note != ""}} {
		if _, ok := p.columns.place[column.name]; !ok && column.needed {
			names = append(names, column.name)
		}
	}
	return names
}

// Put puts lines below the others.
func (p *Page) Put(lines string) {
	before := len(p.Text)
	p.Text = append(ended(p.Text), lines...)
	p.Added = append(p.Added, p.Text[before:]...)
}

// texts is an entry by the columns that it is written into.
func (p *Page) texts(e Entry) map[string]string {
	return map[string]string{
		"angle": p.number(e.Angle), p.columns.kind.names[1]: p.number(e.Depth), "turn": e.Turn.String(),
		"set":  strconv.Itoa(evidence.SetOf(e.Set)),
		"note": strings.TrimLeft(e.Note, "# "), // a # at a row's beginning would make it a comment
	}
}

// row is a line of the file with texts written over a row's fields.
func (p *Page) row(fields []string, texts map[string]string) []byte {
	for name, text := range texts {
		if i, ok := p.columns.place[name]; ok {
			fields[i] = text
		}
	}
	var row bytes.Buffer
	w := csv.NewWriter(&row)
	w.Comma = p.columns.sheet.comma
	// a buffer takes everything, and the separator was good to read with
	_ = w.Write(fields)
	w.Flush()
	return row.Bytes()
}

// number is a number with the file's own decimals.
func (p *Page) number(text string) string {
	switch {
	case p.columns.sheet.comma == ',' || p.decimal == ".":
		return strings.ReplaceAll(text, ",", ".")
	case p.decimal == ",":
		return strings.ReplaceAll(text, ".", ",")
	}
	return text
}

// widen adds columns at the right, empty in the readings that are there.
func (p *Page) widen(names []string) {
	comma := string(p.columns.sheet.comma)
	var out []byte
	from := 0
	put := func(end int, what string) {
		last := end
		if last > from && p.Text[last-1] == '\n' {
			last--
		}
		out = append(append(out, p.Text[from:last]...), what...)
		from = last
	}
	put(p.header, comma+strings.Join(names, comma))
	for _, end := range p.ends {
		put(end, strings.Repeat(comma, len(names)))
	}
	p.Text = append(out, p.Text[from:]...)
	for _, name := range names {
		p.columns.place[name] = p.columns.count
		p.columns.count++
	}
	p.ends = nil // no longer where they were
}

// ended is text whose last line has an end.
func ended(text []byte) []byte {
	if len(text) > 0 && text[len(text)-1] != '\n' {
		return append(text[:len(text):len(text)], '\n')
	}
	return text
}
