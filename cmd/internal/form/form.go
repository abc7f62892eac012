package form

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"
)

// CSV writes rows as RFC 4180 with no cell that a spreadsheet would run.
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

// JSON writes indented JSON with text as it is.
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
