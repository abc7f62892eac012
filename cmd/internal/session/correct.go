package session

import (
	"fmt"

	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// numbered is a reading by its number; not without one.
func (s *Session) numbered(n int) (evidence.Reading, bool) {
	if have := len(s.state.Readings); n > have {
		s.bad++
		s.tell("There is no reading %d: %s. Type list to see their numbers.", n, hasReadings(have))
		return evidence.Reading{}, false
	}
	return s.state.Readings[n-1], true
}

func hasReadings(n int) string {
	switch n {
	case 0:
		return "there are none yet"
	case 1:
		return "there is one"
	}
	return fmt.Sprintf("there are %d", n)
}

// Why a row of a readings file became a comment.
const (
	whyStruck = "struck"
	whyFixed  = "replaced by the row below"
)

// strike takes a reading out of account.
func (s *Session) strike(n int) error {
	r, ok := s.numbered(n)
	if !ok {
		return nil
	}
	c := &correction{session: s, what: fmt.Sprintf("strike %d, %s", n, s.typed(r)), why: whyStruck, counts: &r, number: s.Number}
	return s.correct(c, sheet.Correction{Strike: &r, Why: whyStruck}, fmt.Sprintf("Struck: reading %d, %s. It stays as a comment.", n, s.typed(r)))
}

// fix types a reading anew. Its turn and its note stay unless others are typed.
func (s *Session) fix(t typed.Line) error {
	r, ok := s.numbered(t.Number)
	if !ok {
		return nil
	}
	e := t.Entry
	e.Turn, e.Note = t.Turn, t.Note
	return s.fixed(t.Number, r, e)
}

// fixed puts what is not empty of an entry over a reading.
func (s *Session) fixed(n int, r evidence.Reading, e sheet.Entry) error {
	last := n == len(s.state.Readings)
	c := &correction{session: s, what: fmt.Sprintf("fix %d, of %s", n, s.typed(r)), why: whyFixed, last: last, number: s.Number}
	err := s.correct(c, sheet.Correction{Strike: &r, Why: whyFixed, Type: &e}, fmt.Sprintf("Reading %d was %s.", n, s.typed(r)))
	if err == nil && last {
		s.turnAsRead(s.state.Readings)
	}
	return err
}

// correct makes a correction that can be undone, and answers with what was done.
func (s *Session) correct(c *correction, what sheet.Correction, says string) error {
	done, readings, err := s.Store.Correct(what)
	if err != nil {
		return s.goneOr(err, func() {})
	}
	before := s.state
	c.counts, c.struck = done.Counts, done.Struck
	s.did(c)
	s.take(readings)
	s.answerWith(s.state.Corrected(before, says, s.doubts.AskOdd()), s.state.News(before))
	return nil
}
