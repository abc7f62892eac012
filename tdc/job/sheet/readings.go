// Package sheet reads files of readings and of stops, CSV with an angle and a depth or two
// angles a row, and takes a file of readings apart so that it can be added to. It touches
// no file.
package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/source"
)

// MostReadings is more than anybody takes by hand.
const MostReadings = 3_000

// ReadReadings reads a readings file: a header row, and a reading a row. Depths
// without a unit of their own, or of their column, are in unit, "mm" or "in".
// Whatever is wrong with the file is an *Error under name, and so is a file
// without readings.
func ReadReadings(name string, data []byte, setup evidence.Setup, unit string) ([]evidence.Reading, error) {
	s, header, err := open(name, data, "no header row: expected one such as angle,depth and below it a reading a row")
	if err != nil {
		return nil, err
	}
	columns, err := newColumns(s, depths, header, unit)
	if err != nil {
		return nil, err
	}
	var readings []evidence.Reading
	err = columns.rows(MostReadings, source.TypeAtTheBench, func(row []string) error {
		r, err := columns.reading(row, setup)
		if err == nil && len(readings) > 0 {
			err = columns.follows(row, readings[len(readings)-1], r)
		}
		readings = append(readings, r)
		return err
	})
	if err != nil {
		return nil, err
	}
	return readings, nil
}

// rows gives the rows below the header, each whole, at least one and at most so many, to take;
// cure, where there is one, is for a file that has none.
func (c columns) rows(most int, cure source.Cure, take func(row []string) error) error {
	first, n := 0, 0
	split := c.sheet.comma == ',' // as if decimal commas had split every row
	for {
		row, err := c.sheet.next()
		switch {
		case err == io.EOF && n == 0:
			return c.sheet.because(len(c.sheet.lines), 1, c.none(cure))
		case err == io.EOF && split && n >= enoughSplit:
			return c.sheet.at(first, 1, "decimal commas where commas stand between the columns: write points, as in 348.5, or put semicolons between the columns")
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		case n == most:
			return c.sheet.wrong(0, "more than %s readings: expected what somebody read by hand", thousands(most))
		case len(row) != c.count:
			return c.miscounted(len(row))
		}
		if n++; n == 1 {
			first, _ = c.sheet.csv.FieldPos(0)
		}
		if err := take(row); err != nil {
			return err
		}
		split = split && c.seemsSplit(row)
	}
}

// none is what is wrong with a file without rows; it has a cure or none.
func (c columns) none(cure source.Cure) error {
	problem := "no readings below the header row: expected rows such as " + c.example()
	if cure == "" {
		return errors.New(problem)
	}
	return source.Curable{Problem: problem, Cure: cure}
}

// thousands is a count of at most six digits with a comma between its thousands.
func thousands(n int) string {
	if n < 1000 {
		return strconv.Itoa(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}

// enoughSplit is how many rows must seem split for it to be no chance.
const enoughSplit = 3

// seemsSplit tells whether a row may be fewer numbers split at their decimal commas:
// whole numbers everywhere, in the note too, which has words in it if anything.
func (c columns) seemsSplit(row []string) bool {
	if c.of(row, "note") == "" {
		return false
	}
	return !slices.ContainsFunc(row, func(field string) bool { return strings.Trim(field, "-0123456789") != "" })
}

// sheet is a readings file as rows of fields.
type sheet struct {
	name  string
	comma rune
	lines [][]byte
	csv   *csv.Reader
}

// open takes a file's data apart when it is text of a size that somebody typed, with a
// header row; headless says what is wrong without one.
func open(name string, data []byte, headless string) (s *sheet, header []string, err error) {
	if len(data) > source.Most {
		return nil, nil, &source.Error{File: name, Problem: source.TooLarge}
	}
	if data, err = source.PlainText(name, source.Newlines(data)); err != nil {
		return nil, nil, err
	}
	s = newSheet(name, data)
	if header, err = s.next(); err == io.EOF {
		err = s.at(1, 1, headless)
	}
	return s, header, err
}

// newSheet takes text apart whose lines end in newlines.
func newSheet(name string, data []byte) *sheet {
	s := &sheet{name: name, comma: ',', lines: bytes.Split(data, []byte("\n"))}
	for _, line := range s.lines {
		if line = bytes.TrimSpace(line); len(line) == 0 || line[0] == '#' {
			continue
		}
		if i := bytes.IndexAny(line, ";\t"); i >= 0 {
			s.comma = rune(line[i])
		}
		break
	}
	s.csv = csv.NewReader(bytes.NewReader(data))
	s.csv.Comma, s.csv.Comment, s.csv.FieldsPerRecord = s.comma, '#', -1
	s.csv.TrimLeadingSpace = s.comma != '\t' // of tabs it would swallow empty fields
	return s
}

// next is the next row that has anything in it; io.EOF after the last.
func (s *sheet) next() ([]string, error) {
	for {
		row, err := s.csv.Read()
		if bad, ok := errors.AsType[*csv.ParseError](err); ok {
			return nil, s.badQuote(bad)
		}
		if err != nil {
			return nil, err
		}
		for i := range row {
			row[i] = strings.Join(strings.Fields(row[i]), " ")
		}
		if all := strings.Join(row, ""); all != "" && all[0] != '#' {
			return row, nil
		}
	}
}

// wrong is an error at a field of the row that was read last.
func (s *sheet) wrong(field int, format string, args ...any) error {
	line, at := s.csv.FieldPos(field)
	return s.at(line, at, fmt.Sprintf(format, args...))
}

// at is an error at a byte of a line, both from 1.
func (s *sheet) at(line, at int, problem string) error {
	return s.because(line, at, errors.New(problem))
}

// because is at with what is wrong as an error.
func (s *sheet) because(line, at int, cause error) error {
	before := s.lines[line-1]
	before = before[:min(at-1, len(before))]
	return &source.Error{File: s.name, Line: line, Column: utf8.RuneCount(before) + 1, Problem: cause.Error(), Cause: cause}
}

func (s *sheet) badQuote(bad *csv.ParseError) error {
	if bad.Line != bad.StartLine {
		return s.at(bad.StartLine, 1, `a quote is opened on this line and never closed: close it, or leave it out`)
	}
	return s.at(bad.Line, bad.Column, `a quote out of place: write "in" for inches, and put a field with quotes in quotes, with its own doubled`)
}

// Blank tells whether a readings file has no row below its header row. One that is not plain
// text, such as one of zeros after a power cut, is not blank: who reads it says what it is.
func Blank(name string, data []byte) bool {
	data, err := source.PlainText(name, data)
	if err != nil {
		return false
	}
	s := newSheet(name, source.Newlines(data))
	if _, err := s.next(); err != nil {
		return err == io.EOF
	}
	_, err = s.next()
	return err == io.EOF
}
