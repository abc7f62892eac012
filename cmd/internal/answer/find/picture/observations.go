package picture

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/chart/bars"
	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/curve"
)

// sideOfTDC is the scale of crank angles from TDC.
var sideOfTDC = bars.Counted{Unit: "crank degrees from TDC", Low: "before", High: "after", Zero: "TDC"}

// pairsOf is what was seen of a cylinder without a depth: all of it in the first set.
func pairsOf(r tdc.Result) []tdc.Pair {
	if first, ok := r.OfSet(0); ok {
		return first.Pairs()
	}
	return nil
}

// observed is the dwells, the contacts with stops and the equal views of a cylinder, each
// from its first angle to its last, and what lies half-way.
func (b Book) observed(last tdc.Result) bars.Observed {
	r, _ := last.OfSet(0)
	o := bars.Observed{
		Title:       b.titled("What was seen without a depth", r),
		Description: "Pairs of angles on the protractor, in crank degrees from TDC, each with what lies half-way between. TDC is at " + b.tdcText(r) + " (95 %).",
		Counted:     sideOfTDC, Shade: measured(0, r.TDC.Expanded), Shading: "Shaded: TDC at " + b.tdcText(r) + " (95 %).",
	}
	for _, p := range r.Pairs() {
		middle, half := r.FromTDC(p.Angle), geometry.Angle(p.Half)
		within := geometry.Angle(gum.Normal95 * p.Sigma)
		one := bars.Pair{
			Name: pairName(p), Says: b.pairRead(p), From: (middle - half).Degrees(), To: (middle + half).Degrees(), Onward: int(p.Turn),
			Doubtful: p.Suspect, Middle: measured(middle, within), Halfway: fromTop(middle, within),
		}
		for _, read := range p.Read {
			one.Read = append(one.Read, (middle + (read - p.Angle).Signed()).Degrees())
		}
		o.Pairs = append(o.Pairs, one)
	}
	return o
}

// pairName is a pair's name, with the way it was turned.
func pairName(p tdc.Pair) string {
	if p.Turn == 0 {
		return p.Label
	}
	return p.Label + ", turned " + p.Turn.String()
}

// pairRead is what the protractor showed.
func (b Book) pairRead(p tdc.Pair) string {
	if p.Count > 1 {
		return fmt.Sprintf("%s of contacts, %s deg apart", words.Count(p.Count, "pair"), words.Fixed(2*p.Half*180/math.Pi, 1))
	}
	format := map[curve.Kind]string{
		curve.StopPair: "contacts at %s and %s", curve.DwellPair: "still at %s, moves at %s", curve.ViewPair: "looks alike at %s and %s",
	}[p.Kind]
	first, second := words.Stated(p.Read[0]), words.Stated(p.Read[1])
	places := words.AsRead([]float64{first, second}, b.Bench.Protractor.Step.Degrees())
	return fmt.Sprintf(format, b.Bench.Reads(p.Read[0], places), b.Bench.Reads(p.Read[1], places))
}

// fromTop is how far something lies from TDC.
func fromTop(off, half geometry.Angle) string {
	side := "after"
	if off < 0 {
		side = "before"
	}
	return fmt.Sprintf("%s deg %s TDC", words.Within(math.Abs(off.Degrees()), half.Degrees()), side)
}
