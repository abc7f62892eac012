package find

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
)

// check is the test of the answer at the bench, how to set the pointer, and the crown
// at TDC; of the first cylinder, whose TDC the pointer is set to.
func (f Answer) check(r tdc.Result) (list []string) {
	const away = 10 * geometry.Degree
	g, ok := r.GoBack(away)
	if !ok || r.CannotTell != nil || f.NotJudged() != "" || r.Number != f.Results[0].Number {
		return nil
	}
	places := words.Decimals(r.TDC.Expanded.Degrees())
	list = append(list, fmt.Sprintf("Check at the bench: turned forward, the gauge should show %s at %s and %s at %s, 10 deg either side of TDC.",
		f.measured(g.Before), f.reads(r.TDC.Angle-away, places), f.measured(g.After), f.reads(r.TDC.Angle+away, places)), f.pointer(r))
	if f.Job.Setup.Gauge.ZeroAtDeck {
		below := float64(f.Job.Setup.Gauge.Falling(geometry.Length(r.CrownDepth.Value)))
		way := "below"
		if below < 0 {
			way = "above"
		}
		list = append(list, fmt.Sprintf("At TDC the crown stands %s %s the deck.", f.measured(gum.Measured{Value: math.Abs(below), Uncertainty: r.CrownDepth.Uncertainty}), way))
	}
	return list
}

// measured is a length with its 95 % half-width, in the job's unit.
func (f Answer) measured(m gum.Measured) string {
	return f.Bench().LengthWithin(geometry.Length(m.Value), geometry.Length(2*m.Uncertainty))
}

// pointer says how to set the pointer so that it reads 0 at TDC.
func (f Answer) pointer(r tdc.Result) string {
	places := words.Decimals(r.TDC.Expanded.Degrees())
	shown := f.Shown(r.TDC.Angle).Degrees()
	if shown > 180 {
		shown -= 360
	}
	by := words.Fixed(math.Abs(shown), places)
	const sure = 0.1 // of the interval: no hand sets a pointer by less
	if math.Abs(shown) < sure*r.TDC.Expanded.Degrees() {
		return "Pointer: leave it, it reads 0 at TDC."
	}
	toward := "toward lower numbers"
	switch before := shown < 0; {
	case f.Job.Setup.Protractor.BySide() && before:
		toward = "to its 0 from the BTDC side"
	case f.Job.Setup.Protractor.BySide():
		toward = "to its 0 from the ATDC side"
	case before:
		toward = "toward higher numbers"
	}
	return fmt.Sprintf("Pointer: move it %s deg %s, and it reads 0 at TDC.", by, toward)
}
