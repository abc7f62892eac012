package main

import (
	"bufio"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"

	"evendrop/cmd/internal/session"

	"evendrop/cmd/internal/caution"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/plan"
)

// jotter is one sitting at the bench.
type jotter struct {
	console
	job    job.Job
	number int // of the cylinder
	file   string
	ground plan.Ground
	book   *notebook.Notebook
	turn   evidence.TurnDirection // of the readings to come
	state  session.Jot
	warned bool         // of turning back
	bad    int          // lines that were not understood
	read   atomic.Int64 // lines that were taken
	disk   sync.Mutex   // held while a file is written
}

// errNotUnderstood is the end of a pipe some of whose lines were no readings.
var errNotUnderstood = errors.New("some lines were not understood: see above")

// errLost is the end of a sitting whose readings another program took out of the file.
var errLost = errors.New("readings that were kept are no longer in the file: see above")

func (s *jotter) run(says string) error {
	stop := s.onSignal()
	defer stop()
	s.tell("%s", session.Wrapped(session.TurnCaution))
	if says != "" {
		s.tell("%s", session.Wrapped(says))
	}
	readings, err := s.reread()
	if err != nil {
		return err
	}
	if n := len(readings); n > 0 {
		s.turn = readings[n-1].Turn
	}
	s.take(readings)
	if s.terminal {
		s.tell("%s", session.Wrapped("Readings go to "+s.file+". Type an angle and a depth, such as 342.5 3.29, or help."))
		fmt.Fprint(s.stderr, s.state.Standing())
	}
	return s.listen()
}

// listen takes lines to the end.
func (s *jotter) listen() error {
	for {
		if s.terminal {
			fmt.Fprintf(s.stderr, "%s> ", s.turn)
		}
		line, ok := s.line()
		if !ok {
			if s.terminal {
				s.tell("")
			}
			break
		}
		s.read.Add(1)
		ended, err := s.obey(line)
		s.tellNews()
		if err != nil {
			return err
		}
		if next := s.state.Next; next != nil && next.Turn == evidence.Backward {
			s.warnOfTurningBack()
		}
		if ended {
			break
		}
	}
	if err := s.lines.Err(); errors.Is(err, bufio.ErrTooLong) {
		return errors.New("a line is longer than 64 KB: nothing below it was read; type a reading a line")
	} else if err != nil {
		return fmt.Errorf("a line could not be read: %w", err)
	}
	if err := s.lookAgain(); err != nil {
		return err
	}
	if *s.cut {
		s.tell("The last line has no end: make sure that it is whole.")
	}
	page, err := s.state.Summary()
	if err != nil {
		return err
	}
	if _, err := s.stdout.Write(page); err != nil {
		return err
	}
	lost := 0
	s.locked(func() { lost = s.book.Lost() })
	switch {
	case s.terminal:
	case lost > 0:
		return errLost
	case s.bad > 0:
		return errNotUnderstood
	}
	return nil
}

// lookAgain is where the job stands with what the file holds at the end.
func (s *jotter) lookAgain() error {
	readings, err := s.reread()
	s.tellNews()
	if err == nil {
		s.take(readings)
	}
	return err
}

// reread is the readings that the file holds now.
func (s *jotter) reread() (readings []evidence.Reading, err error) {
	s.locked(func() { readings, err = s.book.Readings() })
	return readings, err
}

// tellNews says what other programs made of the file.
func (s *jotter) tellNews() {
	var news string
	s.locked(func() { news = s.book.News() })
	if news != "" {
		s.tell("%s", session.Wrapped(news))
	}
}

// obey does what a line asks for. A reading that could not be kept ends a pipe,
// whose next lines may count on it; somebody at a terminal may try again.
func (s *jotter) obey(line string) (ended bool, err error) {
	t, err := parseLine(line, s.job.Setup, s.job.Unit)
	if err != nil {
		s.bad++
		s.tell("%s", session.Wrapped(err.Error()))
		return false, nil
	}
	if t.turn != 0 {
		s.turnTo(t.turn)
	}
	switch t.order {
	case takeReading, takeRemark, undo:
		if err = s.write(t); err != nil && s.terminal {
			s.notKept(err)
			return false, nil
		}
		return false, err
	case turnOnly:
		s.tell("Turning %s from here on.", s.turn)
	case list, plot:
		s.show(t.order)
	case showNext:
		fmt.Fprint(s.stdout, s.state.Standing())
	case keepIt:
		s.tell("It is kept.")
	case help:
		fmt.Fprint(s.stderr, jotHelp)
	case done:
		return true, nil
	}
	return false, nil
}

// notKept says why a line was not kept to somebody who may type it again.
func (s *jotter) notKept(err error) {
	s.tell("%s", session.Wrapped("This was not kept: "+err.Error()))
	if _, emptied := errors.AsType[*notebook.Emptied](err); emptied {
		s.locked(s.book.TakeAsIs)
		s.tell("Or type it once more, to go on in the file as it is now.")
	}
}

// turnTo changes the way the crank is turned.
func (s *jotter) turnTo(turn evidence.TurnDirection) {
	s.turn = turn
	if turn == evidence.Backward {
		s.warnOfTurningBack()
	}
}

// warnOfTurningBack says the caution once, as soon as turning back is asked for.
func (s *jotter) warnOfTurningBack() {
	if !s.warned {
		s.warned = true
		s.tell("%s", session.Wrapped(caution.TurnBack))
	}
}
