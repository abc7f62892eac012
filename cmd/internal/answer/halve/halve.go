package halve

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// Halve is the answer of halving pairs of angles.
type Halve struct {
	Protractor evidence.Protractor // as the angles were typed: in quadrants with BTDC or ATDC
	Pairs      []halve.Pair
	halve.Halved
}

// Document is the answer in words.
func (h Halve) Document() doc.Document {
	bench := words.Bench{Protractor: h.Protractor}
	var d doc.Document
	d.Say(fmt.Sprintf("TDC is at %s on the protractor (95 %%, %s).", bench.ReadsWithin(h.TDC), h.partOf()))
	d.Say(h.apart())
	if len(h.Pairs) > 1 {
		places := words.Decimals(h.TDC.Expanded.Degrees()) + 1
		t := doc.Table{Header: []string{"Pair", "first, deg", "second, deg", "half-way, deg"}}
		for i, p := range h.Pairs {
			t.Rows = append(t.Rows, []string{
				strconv.Itoa(i + 1), bench.Reads(p.First, places), bench.Reads(p.Second, places), bench.Reads(h.Middles[i], places),
			})
		}
		d.Table(t)
	}
	d.Say(h.oneWay() + "If the angles are of the piston's lowest point, this is BDC.")
	d.Say(caution.With(caution.Stop, caution.Back))
	return d
}

// oneWay is what lash makes of pairs turned one way.
func (h Halve) oneWay() string {
	if h.Lag != nil {
		return ""
	}
	return "Turned one way only, lash makes equal drops come late, by some 0.1 deg; take a pair turning each way where that is safe. "
}

// scattered tells whether the midpoints lie farther apart than the protractor
// explains, so that their scatter is in the uncertainty.
func (h Halve) scattered() bool { return !math.IsInf(h.TDC.DegreesOfFreedom, 1) }

func (h Halve) partOf() string {
	switch {
	case h.Between:
		return "between the midpoints"
	case h.scattered():
		return "by the scatter of the midpoints"
	}
	return "the protractor's part alone"
}

// apart is what the midpoints lying apart means.
func (h Halve) apart() string {
	switch {
	case h.Lag != nil:
		return h.lag()
	case h.Between:
		groups := "The midpoints fall into two groups, %s deg apart."
		if len(h.Middles) == 2 {
			groups = "The midpoints lie %s deg apart."
		}
		return fmt.Sprintf(groups+" With some pairs turned forward and others back, lash does that, and it cancels: "+
			"type a pair turned back with its later angle first. If all were turned one way, some are wrong: read another pair to see which.", h.extent())
	case !h.scattered():
		return ""
	case len(h.Middles) == 2:
		return fmt.Sprintf("The midpoints lie %s deg apart, more than the protractor explains. If one pair was turned back, type its later angle first; "+
			"if not, one is wrong: read a third pair to see which.", h.extent())
	}
	which, _ := halve.Farthest(h.Middles)
	return fmt.Sprintf("The midpoints lie up to %s deg apart, more than the protractor explains, pair %d farthest from the others: read it again.", h.extent(), which+1)
}

// lag is what turning both ways shows.
func (h Halve) lag() string {
	size := words.Fixed(math.Abs(h.Lag.Degrees()), 1)
	switch {
	case math.Abs(float64(*h.Lag)) <= float64(h.TDC.Expanded):
		return "Turned forward and turned back the midpoints agree."
	case *h.Lag < 0:
		return fmt.Sprintf("Turned forward the midpoints come %s deg before TDC, turned back as much after it, and lash does the opposite: "+
			"make sure that each pair is in the order it was read, and of --counts.", size)
	}
	return fmt.Sprintf("Turned forward the midpoints come %s deg late, turned back as much early: lash and the eye's lag do that, and it cancels.", size)
}

// extent is how far apart the farthest midpoints lie.
func (h Halve) extent() string {
	least, most := 0.0, 0.0
	for _, m := range h.Middles {
		off := (m - h.TDC.Angle).Signed().Degrees()
		least, most = math.Min(least, off), math.Max(most, off)
	}
	return words.Fixed(most-least, 1)
}

type halveJSON struct {
	form.Head
	TDC         float64    `json:"tdc_deg"`
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

// JSON is the answer as JSON.
func (h Halve) JSON() ([]byte, error) {
	at, half := h.Protractor.Shows(h.TDC.Angle).Degrees(), h.TDC.Expanded.Degrees()
	out := halveJSON{
		Head: form.Format1, TDC: at, Uncertainty: h.TDC.Uncertainty.Degrees(),
		Interval: [2]float64{at - half, at + half}, Pairs: []pairJSON{},
	}
	if h.Lag != nil {
		out.Lag = new(h.Lag.Degrees())
	}
	for i, p := range h.Pairs {
		out.Pairs = append(out.Pairs, pairJSON{
			words.Stated(h.Protractor.Shows(p.First)), words.Stated(h.Protractor.Shows(p.Second)), h.Protractor.Shows(h.Middles[i]).Degrees(),
		})
	}
	return form.JSON(out)
}

// CSV is the answer as a table of pairs with TDC in the last row.
func (h Halve) CSV() ([]byte, error) {
	rows := [][]string{{"kind", "first_deg", "second_deg", "midpoint_deg", "standard_uncertainty_deg"}}
	for i, p := range h.Pairs {
		rows = append(rows, []string{
			"pair", form.Digits(words.Stated(h.Protractor.Shows(p.First))), form.Digits(words.Stated(h.Protractor.Shows(p.Second))),
			form.Digits(h.Protractor.Shows(h.Middles[i]).Degrees()), "",
		})
	}
	rows = append(rows, []string{"tdc", "", "", form.Digits(h.Protractor.Shows(h.TDC.Angle).Degrees()), form.Digits(h.TDC.Uncertainty.Degrees())})
	return form.CSV(rows)
}
