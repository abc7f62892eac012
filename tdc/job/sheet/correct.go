package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math"
	"slices"
	"strings"

	"evendrop/tdc/evidence"
)

// Correction is what is put right among readings in one go. What no longer counts stays
// as a comment, where it stood.
type Correction struct {
	Strike *evidence.Reading // becomes a comment; nil for none
	Why    string            // said in that comment
	Type   *Entry            // comes in its place; what it leaves empty or zero stays as it was; nil for nothing
	Revive *Struck           // counts again; nil for none
}

// Struck is a row that became a comment.
type Struck struct {
	comment, Row string // whole lines, but for the end of the last
	Line         int    // of the comment
	Reading      evidence.Reading
}

// Corrected is what came of a correction.
type Corrected struct {
	Struck  *Struck           // nil where nothing was to be struck
	Counts  *evidence.Reading // that counts by it now; nil of none
	Row     string            // of that
	counted int               // the line on which it stands; 0 of none
}

// ErrGone is a row, or the comment that it became, that is no longer in the file.
var ErrGone = errors.New("another program changed that row, or took it out, and nothing was written: type list, and then what is right now")

// Correct puts a page right that holds readings. ErrGone is that what it is to strike or
// revive is not there.
func (p *Page) Correct(c Correction, readings []evidence.Reading) (Corrected, error) {
	var done Corrected
	if c.Type != nil {
		if err := p.makeRoom(*c.Type); err != nil {
			return done, err
		}
	}
	if c.Strike != nil {
		i := Place(readings, *c.Strike)
		if i < 0 || i >= len(p.lines) {
			return done, ErrGone
		}
		comes := ""
		if c.Type != nil {
			comes = string(p.row(p.fields(i), p.typed(*c.Type)))
			done.Row = strings.TrimSuffix(comes, "\n")
		}
		struck := p.strike(i, c.Why, comes)
		struck.Reading = readings[i]
		done.Struck = &struck
		if c.Type != nil {
			done.counted = struck.Line + 1 + strings.Count(struck.comment, "\n")
		}
	}
	if c.Revive != nil {
		if done.counted = p.revive(*c.Revive); done.counted == 0 {
			return done, ErrGone
		}
		done.Row = c.Revive.Row
	}
	return done, nil
}

// Found is the correction with the reading that counts by it, of those that the page is
// read as. ErrGone is that it does not read so: the columns are no longer what they were.
func (d Corrected) Found(c Correction, readings []evidence.Reading) (Corrected, error) {
	for _, r := range readings {
		if r.Line == d.counted {
			d.Counts = &r
		}
	}
	if d.counted > 0 && d.Counts == nil || c.Revive != nil && !same(*d.Counts, c.Revive.Reading) {
		return d, ErrGone
	}
	return d, nil
}

// Place is where a reading stands among others, the nearest in the file where there are
// several of its kind; -1 of none.
func Place(readings []evidence.Reading, r evidence.Reading) int {
	at, nearest := -1, math.MaxInt
	for i, other := range readings {
		if off := max(other.Line-r.Line, r.Line-other.Line); same(other, r) && off < nearest {
			at, nearest = i, off
		}
	}
	return at
}

// Has tells whether a reading is one of several, wherever it stands in the file.
func Has(readings []evidence.Reading, r evidence.Reading) bool { return Place(readings, r) >= 0 }

// same tells whether two readings are one, wherever they stand.
func same(one, other evidence.Reading) bool {
	one.Line = other.Line
	return one == other
}

// makeRoom adds the columns that an entry needs.
func (p *Page) makeRoom(e Entry) error {
	missing := p.missing(e)
	if len(missing) == 0 {
		return nil
	}
	p.widen(missing)
	wide, err := NewPage(p.columns.sheet.name, p.Data(), p.of, p.columns.unit)
	*p = wide
	return err
}

// typed is the texts of what an entry does not leave as it was.
func (p *Page) typed(e Entry) map[string]string {
	texts := p.texts(e)
	for name, stays := range map[string]bool{"angle": e.Angle == "", p.columns.kind.names[1]: e.Depth == "", "turn": e.Turn == 0, "set": e.Set == 0, "note": e.Note == ""} {
		if stays {
			delete(texts, name)
		}
	}
	return texts
}

// begins is the offset at which a line begins, lines from 1.
func (p *Page) begins(line int) int {
	start := 0
	for range line - 1 {
		start += bytes.IndexByte(p.Text[start:], '\n') + 1
	}
	return start
}

// fields is a row's, of all columns.
func (p *Page) fields(i int) []string {
	r := csv.NewReader(bytes.NewReader(p.Text[p.begins(p.lines[i]):p.ends[i]]))
	r.Comma, r.FieldsPerRecord, r.TrimLeadingSpace = p.columns.sheet.comma, -1, p.columns.sheet.csv.TrimLeadingSpace
	fields, _ := r.Read() // it was read before
	return append(fields, make([]string, max(0, p.columns.count-len(fields)))...)
}

// strike makes a comment of the i-th row, with a row below it that comes instead.
func (p *Page) strike(i int, why, comes string) Struck {
	start, end := p.begins(p.lines[i]), p.ends[i]
	row, ended := strings.CutSuffix(string(p.Text[start:end]), "\n")
	s := Struck{comment: "# " + why + ": " + strings.ReplaceAll(row, "\n", "\n# "), Row: row, Line: p.lines[i]}
	text := s.comment
	if ended || comes != "" {
		text += "\n"
	}
	if !ended {
		comes = strings.TrimSuffix(comes, "\n")
	}
	p.ownMore(s.Line+strings.Count(row, "\n"), strings.Count(comes, "\n"))
	p.replace(start, end, text+comes)
	return s
}

// ownMore keeps the lines' own ends where lines are put below one.
func (p *Page) ownMore(line, count int) {
	if line > len(p.own) {
		return
	}
	p.own = slices.Insert(slices.Clone(p.own), line, slices.Repeat(p.own[line-1:line], count)...)
}

// revive makes a row of the comment that it became, the nearest to where that stood, and
// is its line; 0 where there is none. A row that has fewer fields than there are columns
// by now gets empty ones.
func (p *Page) revive(s Struck) (line int) {
	at, nearest := -1, math.MaxInt
	for from, n := 0, 1; from < len(p.Text); n++ {
		rest := p.Text[from:]
		if after, ok := bytes.CutPrefix(rest, []byte(s.comment)); ok && (len(after) == 0 || after[0] == '\n') {
			if off := max(n-s.Line, s.Line-n); off < nearest {
				at, nearest, line = from, off, n
			}
		}
		end := bytes.IndexByte(rest, '\n')
		if end < 0 {
			break
		}
		from += end + 1
	}
	if at < 0 {
		return 0
	}
	p.replace(at, at+len(s.comment), p.widened(s.Row))
	return line
}

// widened is a row with empty fields for the columns that it lacks.
func (p *Page) widened(row string) string {
	r := csv.NewReader(strings.NewReader(row))
	r.Comma, r.FieldsPerRecord = p.columns.sheet.comma, -1
	fields, _ := r.Read() // it was read before
	return row + strings.Repeat(string(p.columns.sheet.comma), max(0, p.columns.count-len(fields)))
}

// replace puts text in the place of some; offsets are no longer right then.
func (p *Page) replace(from, to int, text string) {
	p.Text = append([]byte(string(p.Text[:from])+text), p.Text[to:]...)
}
