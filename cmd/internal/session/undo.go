package session

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/session/standing"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// deed is something done in this sitting that undo takes back and redo does again: a
// reading, a correction, or other evidence that was kept. Whoever does one tells the
// session with did. An error of undo or redo is that nothing was changed.
type deed interface {
	words() string // what was done: "reading 342.5,3.29,forward"
	undo() error
	redo() error
}

// deeds is what was done in this sitting and can be taken back, and what was taken back
// and can be done again; the last of each comes first.
type deeds struct{ done, undone []deed }

// did takes down what was done. What was taken back before cannot be done again then.
func (s *Session) did(d deed) {
	s.deeds.done = append(s.deeds.done, d)
	s.deeds.undone = nil
}

// keep does something for the first time, and says what was kept.
func (s *Session) keep(d deed, says string) error {
	if err := d.redo(); err != nil {
		return err
	}
	s.did(d)
	s.answer(s.state.Block([]string{"Kept: " + says}))
	return nil
}

// undo takes back the last thing done in this sitting, and when all of that is taken
// back the last reading there is.
func (s *Session) undo() error {
	if len(s.deeds.done) == 0 {
		readings, err := s.Store.Readings()
		switch {
		case err != nil:
			return err
		case len(readings) == 0:
			s.tell("There is no reading to undo.")
			return nil
		}
		s.deeds.done = []deed{s.reading(readings[len(readings)-1])}
	}
	d := pop(&s.deeds.done)
	if err := d.undo(); err != nil {
		return s.goneOr(err, func() { s.deeds.done = append(s.deeds.done, d) })
	}
	s.deeds.undone = append(s.deeds.undone, d)
	s.stands("Undone: " + d.words() + ".")
	return nil
}

// redo takes the last undo back.
func (s *Session) redo() error {
	if len(s.deeds.undone) == 0 {
		s.tell("There is nothing to redo: redo takes back an undo, before anything else is typed.")
		return nil
	}
	d, before, number := pop(&s.deeds.undone), s.state, s.Number
	if err := d.redo(); err != nil {
		return s.goneOr(err, func() { s.deeds.undone = append(s.deeds.undone, d) })
	}
	s.deeds.done = append(s.deeds.done, d)
	s.stands("Done again: " + d.words() + ".")
	if c, is := d.(*correction); is && c.last && c.number == number {
		s.asksAgain(c, before)
	}
	return nil
}

// asksAgain asks about a reading that was done again, as when it was typed, where nobody has
// said that it is right.
func (s *Session) asksAgain(c *correction, before standing.State) {
	if c.counts == nil || s.doubts.Confirmed(*c.counts) {
		return
	}
	if asked := s.doubts.Ask(before, s.turn, true); asked != "" {
		s.answer(s.state.Block([]string{asked}))
	}
}

// goneOr says that another program came between, or puts a deed back and is the error.
func (s *Session) goneOr(err error, putBack func()) error {
	if !errors.Is(err, sheet.ErrGone) {
		putBack()
		return err
	}
	s.bad++
	s.tell("%v.", err)
	readings, err := s.Store.Readings()
	if err == nil {
		s.take(readings)
		s.stands("Nothing was changed.")
	}
	return err
}

// stands says what was done, and where the job stands then.
func (s *Session) stands(what string) {
	s.answer(s.state.Block([]string{what}) + s.state.Standing())
}

// pop takes the last one away.
func pop[T any](list *[]T) T {
	last := len(*list) - 1
	one := (*list)[last]
	*list = (*list)[:last]
	return one
}

// correction is a change of the readings that was made: what it struck can be revived
// when what counts by it is struck, and the other way round.
type correction struct {
	session *Session
	what    string
	why     string            // said in the comment of what it strikes
	counts  *evidence.Reading // by it; nil for none
	struck  *sheet.Struck     // nil for none
	last    bool              // it was the last reading, whose turn the next ones have
	number  int               // of the cylinder that it is of
}

func (c *correction) words() string { return c.what }

func (c *correction) undo() error { return c.turnOver("undone") }

func (c *correction) redo() error { return c.turnOver(c.why) }

// turnOver strikes what counts, and revives what was struck.
func (c *correction) turnOver(why string) error {
	if err := c.session.backTo(c.number); err != nil {
		return err
	}
	done, readings, err := c.session.Store.Correct(sheet.Correction{Strike: c.counts, Why: why, Revive: c.struck})
	if err != nil {
		return err
	}
	c.counts, c.struck = done.Counts, done.Struck
	c.session.take(readings)
	if c.last {
		c.session.turnAsRead(readings)
	}
	return nil
}

// turnAsRead goes on turning as the last reading was.
func (s *Session) turnAsRead(readings []evidence.Reading) {
	if n := len(readings); n > 0 && readings[n-1].Turn != s.turn {
		s.turn = readings[n-1].Turn
		s.tell("Turning %s, as in the reading before.", s.turn)
	}
}

// reading is the deed of a reading that was kept, the last one.
func (s *Session) reading(r evidence.Reading) deed {
	return &correction{session: s, what: "reading " + s.typed(r), counts: &r, last: true, number: s.Number}
}

// typed is a reading as it is typed: "342.5 3.29, turned forward".
func (s *Session) typed(r evidence.Reading) string {
	b := s.state.Bench()
	places := words.AsRead([]float64{r.Angle.Degrees()}, s.Job.Setup.Protractor.Step.Degrees())
	return fmt.Sprintf("%s %s, turned %s", b.Reads(r.Angle, places), b.Number(s.Job.Setup.Gauge.Falling(r.Depth)), r.Turn)
}
