package halve

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/halve"
)

// Halve is the answer of halving pairs of angles.
type Halve struct {
	protractor evidence.Protractor // as the angles were typed: in quadrants with BTDC or ATDC
	pairs      []halve.Pair
	halve.Halved
}

// Document is the answer in words.
func (h Halve) Document() doc.Document {
	bench := words.Bench{Protractor: h.protractor}
	var d doc.Document
	d.Say(fmt.Sprintf("TDC is at %s on the protractor (95 %%, %s).", bench.ReadsWithin(h.TDC), h.partOf()))
	d.Say(h.apart())
	if len(h.pairs) > 1 {
		d.Table(pairTable(bench, h.pairs, h.Middles, words.Decimals(h.TDC.Expanded.Degrees())+1))
	}
	d.Say(h.oneWay() + "If the angles are of the piston's lowest point, this is BDC.")
	d.Say(caution.With(caution.Stop, caution.Back))
	return d
}

// pairTable is pairs of angles, each with its midpoint.
func pairTable(bench words.Bench, pairs []halve.Pair, middles []geometry.Angle, places int) doc.Table {
	t := doc.Table{Header: []string{"Pair", "first, deg", "second, deg", "half-way, deg"}}
	for i, p := range pairs {
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(i + 1), bench.Reads(p.First, places), bench.Reads(p.Second, places), bench.Reads(middles[i], places),
		})
	}
	return t
}

// oneWay is what lash makes of pairs turned one way.
func (h Halve) oneWay() string {
	if h.Lag != nil {
		return ""
	}
	return "Turned one way only, lash makes equal drops come late, often by 0.1 deg or more. Take a pair turning each way where that is safe. "
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
	return "the protractor's own error alone"
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
		return fmt.Sprintf(groups+" With some pairs turned forward and others back, lash does that, and it cancels. "+
			"Type a pair turned back with its later angle first. If all were turned one way, some are wrong: read another pair to see which.", h.extent())
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
	way := "late"
	if *h.Lag < 0 {
		way = "early"
	}
	switch {
	case size == words.Fixed(0, 1):
		return "Turned forward and turned back the midpoints agree."
	case math.Abs(float64(*h.Lag)) <= float64(h.TDC.Expanded):
		return fmt.Sprintf("Turned forward the midpoints come %s deg %s, turned back as much the other way. The protractor's own error alone can do that.", size, way)
	case *h.Lag < 0:
		return fmt.Sprintf("Turned forward the midpoints come %s deg before TDC, turned back as much after it, and lash does the opposite. "+
			"Check that each pair is in the order it was read, and check --counts.", size)
	}
	return fmt.Sprintf("Turned forward the midpoints come %s deg late, turned back as much early: lash and the eye's lag do that, and it cancels.", size)
}

// extent is how far apart the farthest midpoints lie.
func (h Halve) extent() string { return extent(h.Middles, h.TDC.Angle) }

// extent is how far apart the farthest of some midpoints about an angle lie.
func extent(middles []geometry.Angle, about geometry.Angle) string {
	least, most := 0.0, 0.0
	for _, m := range middles {
		off := (m - about).Signed().Degrees()
		least, most = math.Min(least, off), math.Max(most, off)
	}
	return words.Fixed(most-least, 1)
}
