package find

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/mark"
)

// throws adds the cylinders against one another.
func (f Answer) throws(d *doc.Document) {
	if len(f.Throws) == 0 {
		return
	}
	d.Table(f.throwTable())
	for _, text := range f.ofThrows() {
		d.Say(text)
	}
}

// ofThrows is what there is to say of the cylinders against one another.
func (f Answer) ofThrows() []string {
	list := []string{f.index()}
	if f.Throws[0].Crown == nil {
		list = append(list, "Crowns are not compared: say same_zero = true under [gauge] when one set-up of the gauge read every cylinder.")
	}
	return list
}

func (f Answer) throwTable() doc.Table {
	t := doc.Table{Header: []string{"Cylinder", "TDC at", "throw off", "± deg", "crown lower", "± mm", "verdict"}}
	for i, throw := range f.Throws {
		off, half := "-", ""
		if i > 0 {
			places := words.Decimals(throw.Expanded.Degrees())
			off, half = words.Signed(throw.Angle.Degrees(), places), words.Fixed(throw.Expanded.Degrees(), places)
		}
		crown, crownHalf := "", ""
		if c := throw.Crown; c != nil {
			places := words.Decimals(c.Expanded)
			crown, crownHalf = words.Signed(c.Value, places), words.Fixed(c.Expanded, places)
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(throw.Cylinder), f.Reads(f.Results[i].TDC.Angle, words.Decimals(f.Results[i].TDC.Expanded.Degrees())), off, half, crown, crownHalf, throwVerdict(throw)})
	}
	return t
}

// throwVerdict is the worse of a throw's verdict and its crown's.
func throwVerdict(t mark.JudgedThrow) string {
	worst := t.Worst()
	switch {
	case t.CannotTell:
		return "cannot be told"
	case worst == mark.NoLimitSaid:
		return ""
	case t.Verdict == t.CrownVerdict:
		return "both " + string(worst)
	case t.Verdict == worst:
		return "throw " + string(worst)
	}
	return "crown " + string(worst)
}

// throwSentences names what is outside its limit.
func (f Answer) throwSentences() []string {
	var list []string
	for _, t := range f.Throws {
		if t.Verdict == mark.Outside {
			places := words.Decimals(t.Expanded.Degrees())
			list = append(list, fmt.Sprintf("Cylinder %d's throw is %s ± %s deg out of its place: outside its limit of %s deg.",
				t.Cylinder, words.Signed(t.Angle.Degrees(), places), words.Fixed(t.Expanded.Degrees(), places), words.Plain(f.Job.Setup.Engine.ThrowLimit.Degrees())))
		}
		if t.CrownVerdict == mark.Outside {
			places, way := words.Decimals(t.Crown.Expanded), "lower"
			if t.Crown.Value < 0 {
				way = "higher"
			}
			list = append(list, fmt.Sprintf("Cylinder %d's crown stands %s ± %s mm %s at TDC than the others: outside its limit of %s mm; it points to a bent rod, or unlike parts.",
				t.Cylinder, words.Fixed(math.Abs(t.Crown.Value), places), words.Fixed(t.Crown.Expanded, places), way, words.Plain(float64(f.Job.Setup.Engine.CrownLimit))))
		}
	}
	return list
}

// index is what the throws say of a wheel off its centre.
func (f Answer) index() string {
	i := f.Index
	if !i.Told {
		return fmt.Sprintf("A wheel off its centre and throws out of place cannot be told apart: the throws come up at %d places of the turn, and it takes 4. "+
			"Turn the wheel half a turn on the crank and read again to tell.", i.Places)
	}
	places := words.Decimals(i.Expanded.Degrees())
	if i.Amplitude <= i.Expanded {
		return fmt.Sprintf("No error that goes once round with the wheel is seen, beyond the %s deg that could be chance.", words.Fixed(i.Expanded.Degrees(), places))
	}
	return fmt.Sprintf("The throws' errors go once round with %s ± %s deg: that points to a wheel %s mm off its centre, or to throws out of place alike.",
		words.Fixed(i.Amplitude.Degrees(), places), words.Fixed(i.Expanded.Degrees(), places),
		words.Fixed(i.Amplitude.Radians()*float64(f.Job.Setup.Protractor.Radius), 1))
}

// goBack is the test of the answer at the bench, and how to set the pointer; it is said
// of the first cylinder, whose TDC the pointer is set to.
func (f Answer) goBack(r tdc.Result) string {
	const away = 10 * geometry.Degree
	g, ok := r.GoBack(away)
	if !ok || CannotTell(r) || f.senseInDoubt() || r.Number != f.Results[0].Number {
		return ""
	}
	places := words.Decimals(r.TDC.Expanded.Degrees())
	shown := f.Shown(r.TDC.Angle).Degrees()
	if shown > 180 {
		shown -= 360
	}
	text := fmt.Sprintf("Go back and see: turned forward, the gauge should show %s at %s and %s at %s, 10 deg either side of TDC.",
		f.depthOf(g.Before), f.Reads(r.TDC.Angle-away, places), f.depthOf(g.After), f.Reads(r.TDC.Angle+away, places))
	text += fmt.Sprintf(" For a protractor that reads 0 at TDC, turn its pointer by %s deg on the scale.", words.Signed(-shown, places))
	if f.Job.Setup.Gauge.ZeroAtDeck {
		below := float64(f.Job.Setup.Gauge.Falling(geometry.Length(r.CrownDepth.Value)))
		way := "below"
		if below < 0 {
			way = "above"
		}
		crown := words.Decimals(2 * r.CrownDepth.Uncertainty)
		text += fmt.Sprintf(" At TDC the crown stands %s ± %s mm %s the deck.", words.Fixed(math.Abs(below), crown), words.Fixed(2*r.CrownDepth.Uncertainty, crown), way)
	}
	return text
}

// depthOf is a depth as the gauge should show it, in the job's unit.
func (f Answer) depthOf(m tdc.Measured) string {
	value, half, unit := m.Value, 2*m.Uncertainty, " mm"
	if f.Job.Unit == "in" {
		value, half, unit = geometry.Length(value).Inches(), geometry.Length(half).Inches(), " in"
	}
	places := words.Decimals(half)
	return words.Fixed(value, places) + " ± " + words.Fixed(half, places) + unit
}
