package job

import (
	"bytes"
	"encoding/csv"
	"io"
	"strings"

	"evendrop/tdc/evidence"
)

// Entry is a reading as somebody types it.
type Entry struct {
	Angle, Depth string // forms that ParseAngle and ParseLength read
	Turn         evidence.TurnDirection
	Note         string
}

// page is a readings file taken apart so that it can be added to.
type page struct {
	text    []byte // with lines that end in a newline, whatever the file's end in
	added   []byte // what of it was put below the file's own
	mark    bool   // begins with a byte order mark
	lineEnd string
	columns columns
	header  int    // offset of the header row's end; 0 of none
	ends    []int  // offsets of the readings' ends
	lines   []int  // that the readings begin on, from 1
	decimal string // "." or "," where a reading shows which is used
}

// newHeader is the header row of a file that has none.
const newHeader = "angle,depth,turn,sweep,note\n"

// newPage takes a file's data apart.
func newPage(name string, data []byte, unit string) (page, error) {
	p := page{lineEnd: lineEnd(data), mark: bytes.HasPrefix(data, []byte("\ufeff"))}
	var err error
	if p.text, err = plainText(name, newlines(data)); err != nil {
		return p, err
	}
	s := newSheet(name, p.text)
	header, err := s.next()
	if err == io.EOF {
		p.put(newHeader)
		headed, err := newPage(name, p.data(), unit)
		headed.added = p.added
		return headed, err
	}
	if err != nil {
		return p, err
	}
	if p.columns, err = newColumns(s, header, unit); err != nil {
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
func (p *page) note(row []string) {
	s := p.columns.sheet
	line, _ := s.csv.FieldPos(0)
	p.lines = append(p.lines, line)
	p.ends = append(p.ends, int(s.csv.InputOffset()))
	for _, name := range columnNames[:2] {
		if i := p.columns.place[name]; i < len(row) && p.decimal == "" && strings.ContainsAny(row[i], ".,") {
			p.decimal = string(row[i][strings.IndexAny(row[i], ".,")])
		}
	}
}

// data is the page as the file has it.
func (p page) data() []byte {
	data := p.filed(p.text)
	if p.mark {
		data = append([]byte("\ufeff"), data...)
	}
	return data
}

// filed is text with the file's line ends.
func (p page) filed(text []byte) []byte {
	return bytes.ReplaceAll(text, []byte("\n"), []byte(p.lineEnd))
}

// add puts a reading below the others, and tells whether that left what was there
// before as it was.
func (p *page) add(e Entry) (appended bool) {
	var missing []string
	for _, column := range []struct {
		name   string
		needed bool
	}{{"turn", e.Turn == evidence.Backward}, {"note", e.Note != ""}} {
		if _, ok := p.columns.place[column.name]; !ok && column.needed {
			missing = append(missing, column.name)
		}
	}
	if len(missing) > 0 {
		p.widen(missing)
	}
	p.put(string(p.row(e)))
	return len(missing) == 0
}

// put puts lines below the others.
func (p *page) put(lines string) {
	before := len(p.text)
	p.text = append(ended(p.text), lines...)
	p.added = append(p.added, p.text[before:]...)
}

// row is a reading as a line of the file.
func (p *page) row(e Entry) []byte {
	fields := make([]string, p.columns.count)
	for name, text := range map[string]string{
		"angle": p.number(e.Angle), "depth": p.number(e.Depth), "turn": e.Turn.String(),
		"note": strings.TrimLeft(e.Note, "# "), // a # at a row's beginning would make it a comment
	} {
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
func (p *page) number(text string) string {
	switch {
	case p.columns.sheet.comma == ',' || p.decimal == ".":
		return strings.ReplaceAll(text, ",", ".")
	case p.decimal == ",":
		return strings.ReplaceAll(text, ".", ",")
	}
	return text
}

// widen adds columns at the right, empty in the readings that are there.
func (p *page) widen(names []string) {
	comma := string(p.columns.sheet.comma)
	var out []byte
	from := 0
	put := func(end int, what string) {
		last := end
		if last > from && p.text[last-1] == '\n' {
			last--
		}
		out = append(append(out, p.text[from:last]...), what...)
		from = last
	}
	put(p.header, comma+strings.Join(names, comma))
	for _, end := range p.ends {
		put(end, strings.Repeat(comma, len(names)))
	}
	p.text = append(out, p.text[from:]...)
	for _, name := range names {
		p.columns.place[name] = p.columns.count
		p.columns.count++
	}
	p.ends = nil // no longer where they were
}

// strike makes a comment of the last reading, and is its text; "" of none.
func (p *page) strike(why string) string {
	if len(p.lines) == 0 {
		return ""
	}
	start := 0
	for range p.lines[len(p.lines)-1] - 1 {
		start += bytes.IndexByte(p.text[start:], '\n') + 1
	}
	end := p.ends[len(p.ends)-1]
	row := strings.TrimSuffix(string(p.text[start:end]), "\n")
	struck := "# " + why + ": " + strings.ReplaceAll(row, "\n", "\n# ") + "\n"
	p.text = append([]byte(string(p.text[:start])+struck), p.text[end:]...)
	return row
}

// ended is text whose last line has an end.
func ended(text []byte) []byte {
	if len(text) > 0 && text[len(text)-1] != '\n' {
		return append(text[:len(text):len(text)], '\n')
	}
	return text
}
