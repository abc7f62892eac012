package form

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/doc/text"
)

// CSV writes rows as RFC 4180 with no cell that a spreadsheet would run. It writes into
// memory, and never errs.
func CSV(rows [][]string) ([]byte, error) {
	var buffer bytes.Buffer
	writer := csv.NewWriter(&buffer)
	for _, row := range rows {
		safe := make([]string, len(row))
		for i, cell := range row {
			safe[i] = inert(cell)
		}
		if err := writer.Write(safe); err != nil {
			return nil, err
		}
	}
	writer.Flush()
	return buffer.Bytes(), writer.Error()
}

// inert is a cell that is no formula: text that begins like one gets a quote
// before it, a number is left alone.
func inert(cell string) string {
	if _, err := strconv.ParseFloat(cell, 64); err == nil || cell == "" {
		return cell
	}
	if strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

// Digits is a number with every digit that it has.
func Digits(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// Known is Digits, or nothing for a number that is not known.
func Known(x *float64) string {
	if x == nil {
		return ""
	}
	return Digits(*x)
}

// JSON writes indented JSON with text as it is. An error is of a value that JSON has no way
// to write, such as an infinite number.
func JSON(value any) ([]byte, error) {
	var buffer bytes.Buffer
	encoder := json.NewEncoder(&buffer)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	err := encoder.Encode(value)
	return buffer.Bytes(), err
}

// Finite is a number for JSON, null when it is none or as good as infinite.
func Finite(x float64) *float64 {
	if math.IsInf(x, 0) || math.IsNaN(x) || x > 1e9 {
		return nil
	}
	return &x
}

// Head is what every answer in JSON begins with.
type Head struct {
	Program string `json:"program" enum:"evendrop"`
	Format  int    `json:"format" enum:"1" doc:"fields may be added to a format, none changed"`
}

// Format1 is the head of the only format so far.
var Format1 = Head{"evendrop", 1}

// A wider line is hard to read back to its beginning, and a narrower one holds no table.
const (
	Widest    = 79
	narrowest = 39
)

// Width is the longest line of text on a terminal of so many columns: of 80 where their
// number is not known and 0.
func Width(columns int) int {
	if columns <= 0 {
		return Widest
	}
	return min(Widest, max(narrowest, columns-1))
}

// Terminal is a document in lines of up to width characters. An error is doc/text's.
func Terminal(d doc.Document, width int) ([]byte, error) { return text.Terminal(d, width) }

// Markdown is a document as Markdown. An error is doc/text's.
func Markdown(d doc.Document) ([]byte, error) { return text.Markdown(d) }

// Wrap is text in lines of up to width characters.
func Wrap(words string, width int) string { return text.Wrap(words, "", width) }

// Printable is an answer in every form. An error is of this program's own making, here and
// in every answer's methods of these names: a number that JSON has no way to write, or a
// table that cannot be drawn. Nothing that somebody typed makes one.
type Printable interface {
	Text(width int) ([]byte, error) // in lines of up to width characters
	Markdown() ([]byte, error)
	JSON() ([]byte, error)
	CSV() ([]byte, error)
}

// Answer is an answer that is one document, for text and for Markdown. It errs as Printable
// does.
type Answer interface {
	Document() doc.Document
	JSON() ([]byte, error)
	CSV() ([]byte, error)
}

// Of is such an answer in every form.
func Of(a Answer) Printable { return worded{a} }

type worded struct{ Answer }

func (w worded) Text(width int) ([]byte, error) { return Terminal(w.Document(), width) }
func (w worded) Markdown() ([]byte, error)      { return Markdown(w.Document()) }
