package session

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// ofNumber takes what is to be done with a reading of the list.
func (t typed) ofNumber(order string, parts []string, setup evidence.Setup, unit string) (typed, error) {
	t.order = order
	usage := errors.New("strike goes with a reading's number: type for example strike 3; the list has the numbers")
	if order == fix {
		usage = errors.New("fix goes with a reading's number and what is right: type for example fix 3 342.5 2.22; the list has the numbers")
	}
	rest := parts[1:]
	if len(rest) == 0 {
		return t, usage
	}
	n, err := strconv.Atoi(rest[0])
	if rest = rest[1:]; err != nil || n < 1 || (len(rest) == 0) != (order == strike) {
		return t, usage
	}
	t.number = n
	if order == strike {
		return t, nil
	}
	if turn, ok := turns[strings.ToLower(rest[0])]; ok && len(rest) > 1 {
		t.turn, rest = turn, rest[1:]
	}
	t.entry, err = parseReading(strings.Join(rest, " "), setup, unit)
	return t, err
}

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
func (s *Session) fix(t typed) error {
	r, ok := s.numbered(t.number)
	if !ok {
		return nil
	}
	e := t.entry
	e.Turn, e.Note = t.turn, t.note
	return s.fixed(t.number, r, e)
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
	asked, _ := s.ofOdd()
	s.answerWith(s.state.Corrected(before, says, asked), s.state.news(before))
	return nil
}

// Corrected is what is said after a reading was put right, before being where the job
// stood until then, with what is asked then.
func (j State) Corrected(before State, says, asked string) string {
	state := j.state(before)
	if len(j.Readings) > 0 {
		state = words.Capital(j.count()) + ". " + state
	}
	return j.block([]string{says, state, j.moved(before), asked, j.suspects(before), j.nextWords()})
}
