package session

import (
	"errors"
	"fmt"
	"slices"

	"evendrop/cmd/internal/session/blunder"
	"evendrop/cmd/internal/session/standing"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/look"
)

// doubt is what is asked about the readings once another was typed; "" for nothing. The
// turn is in question only where none was typed with it.
func (s *Session) doubt(before standing.State, turnTyped bool) string {
	if q := s.twice(); q != nil {
		return s.asks(q)
	}
	asked, clear := s.ofOdd(before)
	if asked != "" || !clear {
		return asked
	}
	if q := s.unsigned(); q != nil {
		return s.asks(q)
	}
	if q := s.againstTurn(); q != nil && !turnTyped {
		return s.asks(q)
	}
	if q := s.misfits(before); q != nil {
		return s.asks(q)
	}
	return ""
}

// benches is what the engine and the instruments allow; nil of an engine that cannot be.
func (s *Session) benches() (allowed, strict *blunder.Bench) {
	if s.allowed == nil {
		unit := geometry.Millimetre
		if s.Job.Unit == "in" {
			unit = geometry.Inch
		}
		// what is wrong with the engine is said elsewhere
		s.allowed, _ = blunder.NewBench(s.state.Job.Setup, unit)
		s.strict, _ = blunder.NewStrict(s.state.Job.Setup, unit)
	}
	return s.allowed, s.strict
}

// oddReading is a reading that may be wrong, and what it may have been meant as.
type oddReading struct {
	evidence.Reading
	ways []blunder.Way
}

// undoubted is the readings of the set at hand, but those that are doubted alone, or were
// kept though they are odd.
func (s *Session) undoubted() (list []evidence.Reading) {
	for _, r := range s.state.Current {
		if !sheet.Has(s.alone, r) && !sheet.Has(s.confirmed, r) {
			list = append(list, r)
		}
	}
	return list
}

// ofOdd asks about readings of which one is wrong, of those that no one was asked about
// alone, where they are not those that were asked about last. Clear is that no earlier
// reading is in doubt, so that the last one alone may be measured by the curve.
func (s *Session) ofOdd(before standing.State) (asked string, clear bool) {
	b, _ := s.benches()
	if b == nil || errors.Is(s.state.Why, look.ErrBottom) {
		return "", true
	}
	odd := s.oddBy(b)
	known := len(odd) == len(s.several) && !slices.ContainsFunc(odd, func(o oddReading) bool { return !sheet.Has(s.several, o.Reading) })
	switch {
	case len(odd) == 0:
		s.several = nil
		return "", len(s.state.Current) > blunder.Most || len(s.undoubted()) == len(s.state.Current)
	case known:
		return "", false
	}
	if len(odd) == 1 && odd[0].Reading == s.lastRead() && before.Firm() {
		odd[0].ways = s.onCurve(before, odd[0])
	}
	return s.asks(s.about(odd)), false
}

// lastRead is the reading typed last; there is one.
func (s *Session) lastRead() evidence.Reading { return s.state.Readings[len(s.state.Readings)-1] }

// onCurve is what the last reading may have been meant as and lies on the curve of those
// before it. What the instruments allow of any engine need not lie there, and would mislead.
func (s *Session) onCurve(before standing.State, odd oddReading) (ways []blunder.Way) {
	for _, w := range odd.ways {
		if before.FitsWorn(w.Reading) {
			ways = append(ways, w)
		}
	}
	b, _ := s.benches()
	for _, w := range b.Digits(odd.Reading) {
		if before.Fits(w.Reading) {
			ways = append(ways, w)
		}
	}
	return ways
}

// oddBy is the readings of which one is wrong by a bench.
func (s *Session) oddBy(b *blunder.Bench) (odd []oddReading) {
	read := s.undoubted()
	for _, o := range b.Odd(read) {
		odd = append(odd, oddReading{read[o.Index], o.Ways})
	}
	return odd
}

// about is the question about readings of which one is wrong.
func (s *Session) about(odd []oddReading) *question {
	s.several = nil
	for _, o := range odd {
		s.several = append(s.several, o.Reading)
	}
	if len(odd) == 1 {
		s.alone = append(s.alone, odd[0].Reading)
		return s.ofOne(odd[0])
	}
	return s.ofSeveral(odd)
}

// twice asks about the last reading where it is the one before it again.
func (s *Session) twice() *question {
	n := len(s.state.Current)
	if n < 2 {
		return nil
	}
	last, one := s.state.Current[n-1], s.state.Current[n-2]
	if one.Angle != last.Angle || one.Depth != last.Depth || one.Turn != last.Turn || sheet.Has(s.confirmed, last) {
		return nil
	}
	number := len(s.state.Readings)
	return &question{
		text:  fmt.Sprintf("%s, is reading %d once more: typed twice?", words.Capital(s.named(last)), number-1),
		keys:  fmt.Sprintf("k keeps both, m strikes reading %d.", number),
		about: []evidence.Reading{last},
		takes: []take{{nil, fmt.Sprintf("strike reading %d", number), func() error { return s.strike(number) }}},
	}
}

// againstTurn asks whether the crank was turned the other way for the last readings.
func (s *Session) againstTurn() *question {
	count := tdc.AgainstTheirTurn(s.state.Current)
	if count == 0 {
		return nil
	}
	n := len(s.state.Current)
	about := slices.Clone(s.state.Current[n-count:])
	if slices.ContainsFunc(about, func(r evidence.Reading) bool { return sheet.Has(s.confirmed, r) }) {
		return nil
	}
	other := -s.turn
	from, to := s.number(about[0]), s.number(about[count-1])
	return &question{
		text: fmt.Sprintf("The last angles go against turning %s, in readings %d to %d. Was the crank turned %s for them?",
			s.turn, from, to, other),
		keys:  fmt.Sprintf("k keeps them, m writes %s.", other),
		about: about,
		takes: []take{{nil, "turned " + other.String(), func() error { return s.turned(about, other) }}},
	}
}

// unsigned asks about a reading that has come to fit on the other side of the protractor's
// zero.
func (s *Session) unsigned() *question {
	b, _ := s.benches()
	if s.state.Result == nil || b == nil {
		return nil
	}
	for _, f := range s.state.Result.Findings {
		row, ok := f.(finding.RowUnsigned)
		if !ok {
			continue
		}
		for _, r := range s.state.Current {
			if r.Line == row.Line && b.HasSign(r, s.state.Current) && !sheet.Has(s.doubted, r) && !sheet.Has(s.confirmed, r) {
				s.alone = append(s.alone, r)
				meant := r
				meant.Angle = -r.Angle
				return s.ofOne(oddReading{r, []blunder.Way{{Kind: blunder.Sign, Reading: meant}}})
			}
		}
	}
	return nil
}

// misfits asks about the last reading where it is not what those before it say.
func (s *Session) misfits(before standing.State) *question {
	text, fits := s.state.Misfit(before)
	if text == "" {
		return nil
	}
	b, strict := s.benches()
	if strict != nil {
		if odd := s.oddBy(strict); len(odd) > 0 {
			return s.about(odd)
		}
	}
	last := s.lastRead()
	q := &question{text: text, about: []evidence.Reading{last}, open: true}
	if b != nil {
		for _, w := range append(b.Ways(last, s.state.Current), b.Digits(last)...) {
			if fits(w.Reading) {
				q.takes = []take{s.takes(last, w, s.shownWay(w))}
				q.text += fmt.Sprintf(" Did you mean %s%s?", s.shownWay(w), s.because(w))
				q.keys = fmt.Sprintf("k keeps %s, m takes %s.", s.shownNow(last, w), s.shownWay(w))
				return q
			}
		}
	}
	q.keys = "k keeps it; or take it back with undo and type it again."
	return q
}
