package halve

import (
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

type halveJSON struct {
	form.Head
	Kind        string     `json:"kind" enum:"tdc|lobe" doc:"what the pairs were halved for"`
	TDC         *float64   `json:"tdc_deg" doc:"null: they are of a lobe"`
	Centre      *float64   `json:"centre_deg" doc:"the lobe's centre; null: the pairs are of a piston"`
	AfterTDC    *float64   `json:"centre_after_tdc_deg" doc:"from the nearer TDC, negative before it; null: of a piston, or TDC was not given"`
	Uncertainty float64    `json:"standard_uncertainty_deg" doc:"the protractor's part, and how far the pairs lie apart where that is more"`
	Interval    [2]float64 `json:"interval95_deg" doc:"low and high end"`
	Pairs       []pairJSON `json:"pairs"`
	Lag         *float64   `json:"lag_deg" doc:"how late the pairs turned forward come, and early the pairs turned back; null: all were typed as turned one way"`
}

type pairJSON struct {
	First  float64 `json:"first_deg"`
	Second float64 `json:"second_deg"`
	Middle float64 `json:"midpoint_deg"`
}

// answered is what both kinds of answer say alike, and where on the protractor that is.
func answered(p evidence.Protractor, kind string, e gum.Estimate, pairs []halve.Pair, middles []geometry.Angle) (out halveJSON, at float64) {
	at, half := p.Shows(e.Angle).Degrees(), e.Expanded.Degrees()
	out = halveJSON{
		Head: form.Format1, Kind: kind, Uncertainty: e.Uncertainty.Degrees(),
		Interval: [2]float64{at - half, at + half}, Pairs: []pairJSON{},
	}
	for i, pair := range pairs {
		out.Pairs = append(out.Pairs, pairJSON{
			words.Stated(p.Shows(pair.First)), words.Stated(p.Shows(pair.Second)), p.Shows(middles[i]).Degrees(),
		})
	}
	return out, at
}

// JSON is the answer as JSON.
func (h Halve) JSON() ([]byte, error) {
	out, at := answered(h.protractor, "tdc", h.TDC, h.pairs, h.Middles)
	out.TDC = new(at)
	if h.Lag != nil {
		out.Lag = new(h.Lag.Degrees())
	}
	return form.JSON(out)
}

// JSON is the answer as JSON.
func (l Lobe) JSON() ([]byte, error) {
	out, at := answered(l.protractor, "lobe", l.Centre, l.pairs, l.Middles)
	out.Centre = new(at)
	if l.tdc != nil {
		out.AfterTDC = new(l.afterTDC().Angle.Degrees())
	}
	return form.JSON(out)
}

// CSV is the answer as a table of pairs with TDC in the last row.
func (h Halve) CSV() ([]byte, error) {
	return form.CSV(append(pairRows(h.protractor, h.pairs, h.Middles), lastRow("tdc", h.protractor.Shows(h.TDC.Angle), h.TDC)))
}

// CSV is the answer as a table of pairs with the centre below, and how far after TDC it
// comes where that is known.
func (l Lobe) CSV() ([]byte, error) {
	rows := append(pairRows(l.protractor, l.pairs, l.Middles), lastRow("lobe centre", l.protractor.Shows(l.Centre.Angle), l.Centre))
	if l.tdc != nil {
		rows = append(rows, lastRow("lobe centre after tdc", l.afterTDC().Angle, l.Centre))
	}
	return form.CSV(rows)
}

// pairRows is a header and a row a pair.
func pairRows(p evidence.Protractor, pairs []halve.Pair, middles []geometry.Angle) [][]string {
	rows := [][]string{{"kind", "first_deg", "second_deg", "midpoint_deg", "standard_uncertainty_deg"}}
	for i, pair := range pairs {
		rows = append(rows, []string{
			"pair", form.Digits(words.Stated(p.Shows(pair.First))), form.Digits(words.Stated(p.Shows(pair.Second))),
			form.Digits(p.Shows(middles[i]).Degrees()), "",
		})
	}
	return rows
}

// lastRow is what the pairs come to, at an angle.
func lastRow(kind string, at geometry.Angle, e gum.Estimate) []string {
	return []string{kind, "", "", form.Digits(at.Degrees()), form.Digits(e.Uncertainty.Degrees())}
}
