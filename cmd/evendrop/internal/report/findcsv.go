package report

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
)

// CSV is the answer as one table: TDC, the methods and the marks.
func (f Find) CSV() ([]byte, error) {
	rows := [][]string{{
		"kind", "cylinder", "name", "value_deg", "standard_uncertainty_deg", "expanded_uncertainty_deg", "limit_deg", "verdict", "readings",
	}}
	for _, r := range f.Results {
		number := strconv.Itoa(r.Number)
		rows = append(rows, []string{
			"tdc", number, "true TDC", digits(f.shown(r.TDC.Angle).Degrees()), digits(r.TDC.Uncertainty.Degrees()),
			digits(r.TDC.Expanded.Degrees()), "", "", strconv.Itoa(len(r.Readings)),
		})
		for _, m := range r.Methods {
			rows = append(rows, []string{
				"method", number, m.Name, digits(f.shown(m.Angle).Degrees()), digits(m.Uncertainty.Degrees()),
				digits(m.Expanded.Degrees()), "", "", strconv.Itoa(m.Readings),
			})
		}
	}
	rows = append(rows, f.markRows()...)
	return csvOf(rows)
}

// csvOf writes rows as RFC 4180 with no cell that a spreadsheet would run.
func csvOf(rows [][]string) ([]byte, error) {
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

func digits(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
