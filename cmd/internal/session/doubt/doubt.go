// Package doubt asks whether readings are wrong once they are kept: what may be wrong, what
// may have been meant, and what was answered. It changes nothing: what an answer takes is a
// line that the session obeys.
package doubt

import (
	"errors"
	"fmt"
	"slices"

	"evendrop/cmd/internal/session/blunder"
	"evendrop/cmd/internal/session/standing"
	"evendrop/cmd/internal/session/typed"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/look"
)

// Doubts is what was asked about readings in a sitting.
type Doubts struct {
	State    standing.State // where the job stands
	Question *Question      // that waits for its key; nil for none

	allowed   *blunder.Bench     // what the engine and the instruments allow
	strict    *blunder.Bench     // the same with instruments read with care
	doubted   []evidence.Reading // that were asked about
	confirmed []evidence.Reading // that were kept by a key
	alone     []evidence.Reading // that were asked about alone, as odd
	several   []evidence.Reading // that were asked about as odd last
}

// Ask is what is asked about the readings once another was typed; "" for nothing. Before is
// where the job stood without it. The turn is in question only where none was typed with it.
func (d *Doubts) Ask(before standing.State, turn evidence.TurnDirection, turnTyped bool) string {
	if q := d.twice(); q != nil {
		return d.asks(q)
	}
	asked, clear := d.ofOdd(before)
	if asked != "" || !clear {
		return asked
	}
	if q := d.unsigned(); q != nil {
		return d.asks(q)
	}
	if q := d.againstTurn(turn); q != nil && !turnTyped {
		return d.asks(q)
	}
	if q := d.misfits(before); q != nil {
		return d.asks(q)
	}
	return ""
}

// benches is what the engine and the instruments allow; nil of an engine that cannot be.
func (d *Doubts) benches() (allowed, strict *blunder.Bench) {
	if d.allowed == nil {
		unit := geometry.Millimetre
		if d.State.Job.Unit == "in" {
			unit = geometry.Inch
		}
		// what is wrong with the engine is said elsewhere
		d.allowed, _ = blunder.NewBench(d.State.Job.Setup, unit)
		d.strict, _ = blunder.NewStrict(d.State.Job.Setup, unit)
	}
	return d.allowed, d.strict
}

// oddReading is a reading that may be wrong, and what it may have been meant as.
type oddReading struct {
	evidence.Reading
	ways []blunder.Way
}

// undoubted is the readings of the set at hand, but those that are doubted alone, or were
// kept though they are odd.
func (d *Doubts) undoubted() (list []evidence.Reading) {
	for _, r := range d.State.Current {
		if !sheet.Has(d.alone, r) && !sheet.Has(d.confirmed, r) {
			list = append(list, r)
		}
	}
	return list
}

// AskOdd is what is asked about the readings after one was put right; "" for nothing.
func (d *Doubts) AskOdd() string {
	asked, _ := d.ofOdd(standing.State{})
	return asked
}

// ofOdd asks about readings of which one is wrong, of those that no one was asked about
// alone, where they are not those that were asked about last. Clear is that no earlier
// reading is in doubt, so that the last one alone may be measured by the curve.
func (d *Doubts) ofOdd(before standing.State) (asked string, clear bool) {
	b, _ := d.benches()
	if b == nil || errors.Is(d.State.Why, look.ErrBottom) {
		return "", true
	}
	odd := d.oddBy(b)
	known := len(odd) == len(d.several) && !slices.ContainsFunc(odd, func(o oddReading) bool { return !sheet.Has(d.several, o.Reading) })
	switch {
	case len(odd) == 0:
		d.several = nil
		return "", len(d.State.Current) > blunder.Most || len(d.undoubted()) == len(d.State.Current)
	case known:
		return "", false
	}
	if len(odd) == 1 && odd[0].Reading == d.lastRead() && before.Firm() {
		odd[0].ways = d.onCurve(before, odd[0])
	}
	return d.asks(d.about(odd)), false
}

// lastRead is the reading typed last; there is one.
func (d *Doubts) lastRead() evidence.Reading { return d.State.Readings[len(d.State.Readings)-1] }

// onCurve is what the last reading may have been meant as and lies on the curve of those
// before it. What the instruments allow of any engine need not lie there, and would mislead.
func (d *Doubts) onCurve(before standing.State, odd oddReading) (ways []blunder.Way) {
	for _, w := range odd.ways {
		if before.FitsWorn(w.Reading) {
			ways = append(ways, w)
		}
	}
	b, _ := d.benches()
	for _, w := range b.Digits(odd.Reading) {
		if before.Fits(w.Reading) {
			ways = append(ways, w)
		}
	}
	return ways
}

// oddBy is the readings of which one is wrong by a bench.
func (d *Doubts) oddBy(b *blunder.Bench) (odd []oddReading) {
	read := d.undoubted()
	for _, o := range b.Odd(read) {
		odd = append(odd, oddReading{read[o.Index], o.Ways})
	}
	return odd
}

// about is the question about readings of which one is wrong.
func (d *Doubts) about(odd []oddReading) *Question {
	d.several = nil
	for _, o := range odd {
		d.several = append(d.several, o.Reading)
	}
	if len(odd) == 1 {
		d.alone = append(d.alone, odd[0].Reading)
		return d.ofOne(odd[0])
	}
	return d.ofSeveral(odd)
}

// twice asks about the last reading where it is the one before it again.
func (d *Doubts) twice() *Question {
	n := len(d.State.Current)
	if n < 2 {
		return nil
	}
	last, one := d.State.Current[n-1], d.State.Current[n-2]
	if one.Angle != last.Angle || one.Depth != last.Depth || one.Turn != last.Turn || sheet.Has(d.confirmed, last) {
		return nil
	}
	number := len(d.State.Readings)
	return &Question{
		Text:  fmt.Sprintf("%s, is reading %d once more: typed twice?", words.Capital(d.named(last)), number-1),
		keys:  fmt.Sprintf("k keeps both, m strikes reading %d.", number),
		About: []evidence.Reading{last},
		Takes: []Take{{Shows: fmt.Sprintf("strike reading %d", number), Line: typed.Line{Order: typed.Strike, Number: number}}},
	}
}

// againstTurn asks whether the crank was turned the other way for the last readings.
func (d *Doubts) againstTurn(turn evidence.TurnDirection) *Question {
	count := tdc.AgainstTheirTurn(d.State.Current)
	if count == 0 {
		return nil
	}
	n := len(d.State.Current)
	about := slices.Clone(d.State.Current[n-count:])
	if slices.ContainsFunc(about, func(r evidence.Reading) bool { return sheet.Has(d.confirmed, r) }) {
		return nil
	}
	other := -turn
	from, to := d.Number(about[0]), d.Number(about[count-1])
	return &Question{
		Text: fmt.Sprintf("The last angles go against turning %s, in readings %d to %d. Was the crank turned %s for them?",
			turn, from, to, other),
		keys:  fmt.Sprintf("k keeps them, m writes %s.", other),
		About: about,
		Takes: []Take{{Shows: "turned " + other.String(), Turn: other}},
	}
}

// unsigned asks about a reading that has come to fit on the other side of the protractor's
// zero.
func (d *Doubts) unsigned() *Question {
	b, _ := d.benches()
	if d.State.Result == nil || b == nil {
		return nil
	}
	for _, f := range d.State.Result.Findings {
		row, ok := f.(finding.RowUnsigned)
		if !ok {
			continue
		}
		for _, r := range d.State.Current {
			if r.Line == row.Line && b.HasSign(r, d.State.Current) && !sheet.Has(d.doubted, r) && !sheet.Has(d.confirmed, r) {
				d.alone = append(d.alone, r)
				meant := r
				meant.Angle = -r.Angle
				return d.ofOne(oddReading{r, []blunder.Way{{Kind: blunder.Sign, Reading: meant}}})
			}
		}
	}
	return nil
}

// misfits asks about the last reading where it is not what those before it say.
func (d *Doubts) misfits(before standing.State) *Question {
	text, fits := d.State.Misfit(before)
	if text == "" {
		return nil
	}
	b, strict := d.benches()
	if strict != nil {
		if odd := d.oddBy(strict); len(odd) > 0 {
			return d.about(odd)
		}
	}
	last := d.lastRead()
	q := &Question{Text: text, About: []evidence.Reading{last}, open: true}
	if b != nil {
		for _, w := range append(b.Ways(last, d.State.Current), b.Digits(last)...) {
			if fits(w.Reading) {
				q.Takes = []Take{d.takes(last, w, d.shownWay(w))}
				q.Text += fmt.Sprintf(" Did you mean %s%s?", d.shownWay(w), d.because(w))
				q.keys = fmt.Sprintf("k keeps %s, m takes %s.", d.shownNow(last, w), d.shownWay(w))
				return q
			}
		}
	}
	q.keys = "k keeps it; or take it back with undo and type it again."
	return q
}
