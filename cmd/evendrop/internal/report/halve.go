package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"evendrop/geometry"
	"evendrop/tdc"
)

// Halve is the answer of halving pairs of angles.
type Halve struct {
	Protractor tdc.Protractor
	Pairs      []tdc.Pair
	Middles    []geometry.Angle
	TDC        tdc.Estimate
	Sides      bool // angles were typed with BTDC or ATDC, and are shown so
}

func (h Halve) document() document {
	f := Find{}
	f.Job.Setup.Protractor = h.Protractor
	if h.Sides {
		f.Job.Setup.Protractor.Scale = tdc.Quadrants
	}
	places := decimals(h.TDC.Expanded.Degrees())
	var d document
	d.paragraph(fmt.Sprintf("TDC is at %s ± %s deg on the protractor (95 %%, %s).",
		f.reads(h.TDC.Angle, places), fixed(h.TDC.Expanded.Degrees(), places), h.partOf()))
	if text := h.apart(); text != "" {
		d.paragraph(text)
	}
	if len(h.Pairs) > 1 {
		t := table{header: []string{"Pair", "first, deg", "second, deg", "half-way, deg"}}
		for i, p := range h.Pairs {
			t.rows = append(t.rows, []string{
				strconv.Itoa(i + 1), f.reads(p.First, places+1), f.reads(p.Second, places+1), f.reads(h.Middles[i], places+1),
			})
		}
		d.table(t)
	}
	d.paragraph("Turned one way only, lash makes equal drops come late, by some 0.1 deg; take a pair turning each way where that is " +
		"safe. If the angles are of the piston's lowest point, this is BDC.")
	d.paragraph(cautioned(stopCaution, backCaution))
	return d
}

// scattered tells whether the midpoints lie farther apart than the protractor
// explains, so that their scatter is in the uncertainty.
func (h Halve) scattered() bool { return !math.IsInf(h.TDC.DegreesOfFreedom, 1) }

func (h Halve) partOf() string {
	if h.scattered() {
		return "by the scatter of the midpoints"
	}
	return "the protractor's part alone"
}

// apart names the pair whose midpoint lies farthest from the middle one, where the
// midpoints scatter.
func (h Halve) apart() string {
	if !h.scattered() {
		return ""
	}
	var off []float64
	for _, m := range h.Middles {
		off = append(off, (m - h.TDC.Angle).Signed().Degrees())
	}
	sorted := slices.Sorted(slices.Values(off))
	middle, worst := sorted[len(sorted)/2], 0
	for i := range off {
		if math.Abs(off[i]-middle) > math.Abs(off[worst]-middle) {
			worst = i
		}
	}
	text := fmt.Sprintf("The midpoints lie up to %s deg apart, more than the protractor explains", fixed(sorted[len(sorted)-1]-sorted[0], 1))
	if len(off) < 3 {
		return text + ": one of the two pairs is wrong, and nothing tells which. Read a third."
	}
	return text + fmt.Sprintf(", pair %d farthest from the others: read it again.", worst+1)
}

// Text is the answer for a terminal.
func (h Halve) Text() ([]byte, error) { return h.document().text() }

// Markdown is the answer as Markdown.
func (h Halve) Markdown() ([]byte, error) { return h.document().markdown() }

type halveJSON struct {
	Program     string     `json:"program"`
	Format      int        `json:"format"`
	TDC         float64    `json:"tdc_deg"`
	Uncertainty float64    `json:"standard_uncertainty_deg"`
	Interval    [2]float64 `json:"interval95_deg"`
	Pairs       []pairJSON `json:"pairs"`
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
		Program: "evendrop", Format: format, TDC: at, Uncertainty: h.TDC.Uncertainty.Degrees(),
		Interval: [2]float64{at - half, at + half}, Pairs: []pairJSON{},
	}
	for i, p := range h.Pairs {
		out.Pairs = append(out.Pairs, pairJSON{
			stated(h.Protractor.Shows(p.First)), stated(h.Protractor.Shows(p.Second)), h.Protractor.Shows(h.Middles[i]).Degrees(),
		})
	}
	return encode(out)
}

// CSV is the answer as a table of pairs with TDC in the last row.
func (h Halve) CSV() ([]byte, error) {
	rows := [][]string{{"kind", "first_deg", "second_deg", "midpoint_deg", "standard_uncertainty_deg"}}
	for i, p := range h.Pairs {
		rows = append(rows, []string{
			"pair", digits(stated(h.Protractor.Shows(p.First))), digits(stated(h.Protractor.Shows(p.Second))),
			digits(h.Protractor.Shows(h.Middles[i]).Degrees()), "",
		})
	}
	rows = append(rows, []string{"tdc", "", "", digits(h.Protractor.Shows(h.TDC.Angle).Degrees()), digits(h.TDC.Uncertainty.Degrees())})
	return csvOf(rows)
}
