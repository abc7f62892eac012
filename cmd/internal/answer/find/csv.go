package find

import (
	"strconv"

	"evendrop/cmd/internal/form"
)

// CSV is the answer as one table: TDC, the methods and the marks.
func (f Answer) CSV() ([]byte, error) {
	rows := [][]string{{
		"kind", "cylinder", "name", "value_deg", "standard_uncertainty_deg", "expanded_uncertainty_deg", "limit_deg", "verdict", "readings",
	}}
	for _, r := range f.Results {
		number := strconv.Itoa(r.Number)
		rows = append(rows, []string{
			"tdc", number, "true TDC", form.Digits(f.Shown(r.TDC.Angle).Degrees()), form.Digits(r.TDC.Uncertainty.Degrees()),
			form.Digits(r.TDC.Expanded.Degrees()), "", "", strconv.Itoa(len(r.Readings)),
		})
		for _, s := range r.Earlier {
			rows = append(rows, []string{
				"tdc of earlier set", number, "set " + strconv.Itoa(s.Set), form.Digits(f.Shown(s.TDC.Angle).Degrees()), form.Digits(s.TDC.Uncertainty.Degrees()),
				form.Digits(s.TDC.Expanded.Degrees()), "", "", strconv.Itoa(len(s.Readings)),
			})
		}
		for _, m := range r.Methods {
			rows = append(rows, []string{
				"method", number, m.Name, form.Digits(f.Shown(m.Angle).Degrees()), form.Digits(m.Uncertainty.Degrees()),
				form.Digits(m.Expanded.Degrees()), "", "", strconv.Itoa(m.Readings),
			})
		}
	}
	rows = append(rows, f.markRows()...)
	rows = append(rows, f.lobeRows()...)
	return form.CSV(rows)
}
