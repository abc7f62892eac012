package find

import (
	"fmt"
	"slices"
	"strconv"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
)

// readingTable is every reading of a set, with what the curve leaves of it.
func (f Answer) readingTable(r tdc.Result, ofSeveral bool) doc.Table {
	b := f.Bench()
	t := doc.Table{Caption: "Every reading", Header: []string{
		"Line", "turn", "angle, deg", "depth, " + b.Unit(), "off curve, " + b.Unit(), "weight", "suspect",
	}}
	if ofSeveral {
		t.Caption = fmt.Sprintf("Every reading of set %d", r.Set)
	}
	var angles, depths []float64
	for _, j := range r.Readings {
		angles, depths = append(angles, j.Angle.Degrees()), append(depths, b.In(j.Depth))
	}
	angle := words.AsRead(angles, b.Protractor.Step.Degrees())
	depth := words.AsRead(depths, b.In(b.Gauge.Step))
	for _, j := range r.Readings {
		suspect, state := "", doc.Unjudged
		if j.Suspect {
			suspect, state = "suspect", doc.Doubtful
		}
		t.Add(state, strconv.Itoa(j.Line), j.Turn.String(), b.Reads(j.Angle, angle),
			words.Fixed(b.In(b.Gauge.Falling(j.Depth)), depth), words.Signed(b.In(j.Residual), depth+1), words.Fixed(j.Weight, 2), suspect)
	}
	if !slices.ContainsFunc(r.Readings, func(j adjust.Judged) bool { return j.Suspect || j.Weight < countsFully }) {
		for i := range t.Rows {
			t.Rows[i] = t.Rows[i][:everyColumn]
		}
		t.Header = t.Header[:everyColumn]
	}
	return t
}

// countsFully is the weight from which a reading's is shown as 1.00; where all are, and none
// is suspect, the table has everyColumn columns and no more.
const (
	countsFully = 0.995
	everyColumn = 5
)
