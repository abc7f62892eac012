package session

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/session/standing"
	"evendrop/cmd/internal/session/typed"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/notebook"
)

// Help is what to type.
const Help = `What to type:
  342.5 3.29                angle and depth
  342.5 3.29 # wobbly       with a note
  b 11.8 0.70               after turning back, as the next ones are
  f 340 4.10                after turning forward again
  b, f                      only say which way the crank is turned from here on
  set 2                     once the protractor is moved on the crank
  stop -31.5 24             where the piston touches a positive stop
  dwell -6.2 9.1            where it stands still, and where it moves again;
                            b dwell 9.1 -6.2 after turning back
  view 351.9 2.9            two angles at which the borescope shows the same
  mark                      a pin, notch, flat or wheel: it asks the rest
  lift inlet 1: 62.5 1.04   a cam lobe's lift; the next lines are its too
  card inlet 1: 12 BTDC 48 ABDC at 1.0 limit 2    its card, before or after
  drive                     how the cams are driven, said again
  photo pin.jpg the pin     a photo in the job's folder, and what it shows
  sheet customer J. Smith   for the customer's sheet; sheet alone asks it all
  piston, cylinder 3        back to the piston; another cylinder's
  crowns 0.1 mm             compare cylinders' crowns; how far off one may be
  throws 0.5                the same of their throws, in degrees
  look                      what to look at next, which would tell more
  fix 3 342.5 2.22          reading 3 as it should be; turn and note stay
  fix 3 b 342.5 2.22        with its turn
  strike 3                  take reading 3 out
  undo, redo                take back what was done last; do it again
  k, m                      keep what was asked about; take what was meant
  list, plot, next          what was read, by number; the curve; the next place
  # new pointer             a remark
  done                      end; the next jot goes on where this one ended
What is fixed, struck or undone stays in the file as a comment.
`

// obey does what a line asks for. A reading that could not be kept ends a pipe,
// whose next lines may count on it; who is patient may try again.
func (s *Session) obey(line string) (ended bool, err error) {
	if s.asked == nil { // no mark is being asked for
		if was, err := s.answered(line); was {
			return false, s.kept(err)
		}
	}
	if is, err := s.other(line); is {
		s.doubts.Question = nil
		return false, s.kept(err)
	}
	t, err := typed.Parse(line, s.Job.Setup, s.Job.Unit)
	if err == nil && t.Order == typed.NewSet {
		err = s.setTo(t.Set)
	}
	switch {
	case err != nil && t.Order == typed.NewSet && !s.Patient: // what comes below would be of another set
		return false, err
	case err != nil:
		s.bad++
		s.tell("%v", err)
		if asked := s.doubts.AskOfScale(t, err); asked != "" {
			s.tell("%s", asked)
		}
		return false, nil
	}
	s.doubts.Forget(t.Order)
	return s.carryOut(t)
}

// carryOut does what a line says that was understood.
func (s *Session) carryOut(t typed.Line) (ended bool, err error) {
	if t.Turn != 0 && t.Order != typed.Fix {
		s.turnTo(t.Turn)
	}
	switch t.Order {
	case typed.TakeReading, typed.TakeRemark, typed.Fix, typed.Strike, typed.Undo, typed.Redo:
		return false, s.kept(s.write(t))
	case typed.TurnOnly:
		s.tell("Turning %s from here on.", s.turn)
	case typed.List:
		s.show(s.Now().List())
	case typed.Plot:
		s.show(s.state.Plot())
	case typed.ShowNext:
		s.state.Wished = 0 // it is asked for
		s.answer(s.state.Standing())
	case typed.KeepIt, typed.Meant:
		s.tell("Nothing is asked just now. Every reading is kept as it is typed; fix and strike put one right.")
	case typed.Help:
		s.said = append(s.said, Said{Kind: AsItStands, Text: Help})
	case typed.Done:
		return true, nil
	}
	return false, nil
}

// answered does what a key says of what is asked about the readings; not of any other line.
func (s *Session) answered(line string) (was bool, err error) {
	q := s.doubts.Question
	says, takes, was := s.doubts.Answer(line)
	switch {
	case !was:
		return false, nil
	case takes == nil:
		s.tell("%s", says)
		return true, nil
	case takes.Turn != 0:
		return true, s.turned(q.About, takes.Turn)
	}
	return true, s.write(takes.Line)
}

// turnTo changes the way the crank is turned.
func (s *Session) turnTo(turn evidence.TurnDirection) {
	s.turn = turn
	if turn == evidence.Backward {
		s.warnOfTurningBack()
	}
}

// setTo goes on in the next set, or back to the last one that has readings.
func (s *Session) setTo(set int) error {
	last := lastSet(s.state.Readings)
	switch set {
	case s.set:
		s.tell("It is set %d already.", set)
		return nil
	case last, last + 1:
		s.set, s.wished = set, 0
	default:
		return fmt.Errorf("set %d: the readings so far are of set %d. Type set %[2]d to go on with it, or set %d once the protractor is moved on the crank", set, last, last+1)
	}
	s.take(s.state.Readings)
	s.tell("Readings are of set %d from here on.%s", set, s.anew())
	s.answer(s.state.Standing())
	return nil
}

// anew says what a new set has to be read for, where there is none of it yet.
func (s *Session) anew() string {
	if s.set == lastSet(s.state.Readings) {
		return ""
	}
	return " TDC stands elsewhere on the protractor now: read the piston on both sides of it again, and each mark: type mark with the same name."
}

// keepSet keeps the set at hand with the readings: as they may have become in another
// program, or by undoing, it is that of the last of them or the next.
func (s *Session) keepSet(readings []evidence.Reading) {
	last := lastSet(readings)
	kept := min(max(s.set, last), last+1)
	if kept != s.set && s.set > 0 {
		s.tell("Readings are of set %d from here on: the last one is of set %d.", kept, last)
	}
	s.set = kept
}

// lastSet is the set of the last reading, the first one without any.
func lastSet(readings []evidence.Reading) int {
	if n := len(readings); n > 0 {
		return evidence.SetOf(readings[n-1].Set)
	}
	return 1
}

// show answers with the readings or the plot.
func (s *Session) show(text string, err error) {
	if err != nil {
		s.tell("%v", err)
		return
	}
	if s.Width == standing.Unbroken {
		s.said = append(s.said, Said{Kind: AsItStands, Text: text})
		return
	}
	s.answer(text)
}

// write does what changes the store, and answers once it is kept.
func (s *Session) write(t typed.Line) error {
	switch t.Order {
	case typed.TakeRemark:
		return s.Store.Remark(t.Note)
	case typed.Undo:
		return s.undo()
	case typed.Redo:
		return s.redo()
	case typed.Fix:
		return s.fix(t)
	case typed.Strike:
		return s.strike(t.Number)
	}
	before := s.state
	t.Entry.Turn, t.Entry.Set = s.turn, s.set
	readings, err := s.Store.Add(t.Entry)
	if err != nil {
		return err
	}
	s.take(readings)
	s.did(s.reading(readings[len(readings)-1]))
	s.answerWith(s.state.Answer(before, s.doubts.Ask(before, s.turn, t.Turn != 0)), s.state.News(before))
	s.wished = max(s.wished, s.state.Wishes())
	s.judged()
	return nil
}

// notKept says why a line was not kept to somebody who may type it again.
func (s *Session) notKept(err error) {
	s.tell("This was not kept: %s", words.Problem(err))
	if _, emptied := errors.AsType[*notebook.Emptied](err); emptied {
		s.Store.TakeAsIs()
		s.tell("Or type it once more, to go on in the file as it is now.")
	}
}
