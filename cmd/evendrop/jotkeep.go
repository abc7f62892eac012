package main

import (
	"fmt"
	"os"
	"os/signal"
	"slices"
	"syscall"

	"evendrop/cmd/internal/session"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

// write does what changes the file, and answers once it is on the disk.
func (s *jotter) write(t typed) error {
	before := s.state
	switch t.order {
	case takeRemark:
		return s.onDisk(func() error { return s.book.Remark(t.note) })
	case undo:
		struck, readings := "", before.Readings
		err := s.onDisk(func() (err error) {
			struck, readings, err = s.book.Undo()
			return err
		})
		if err != nil {
			return err
		}
		if struck == "" {
			s.tell("There is no reading to undo.")
			return nil
		}
		s.take(readings)
		if n := len(readings); n > 0 && readings[n-1].Turn != s.turn {
			s.turn = readings[n-1].Turn
			s.tell("Turning %s, as in the reading before.", s.turn)
		}
		_, err = fmt.Fprintf(s.stdout, "     Struck out: %s\n%s", plainLine(struck), s.state.Standing())
		return err
	}
	t.entry.Turn = s.turn
	var readings []evidence.Reading
	err := s.onDisk(func() (err error) {
		readings, err = s.book.Add(t.entry)
		return err
	})
	if err != nil {
		return err
	}
	s.take(readings)
	if _, err = fmt.Fprint(s.stdout, s.state.Answer(before)); err != nil {
		return err
	}
	if t.turn == 0 && tdc.AgainstTheirTurn(readings) {
		s.tell("%s", session.Wrapped(fmt.Sprintf("The last angles go the other way than turning %s. If the crank was turned the other way, strike them out with undo, "+
			"and type f or b before the first one again.", s.turn)))
	}
	return nil
}

// locked runs what a signal must not come between.
func (s *jotter) locked(do func()) {
	s.disk.Lock()
	defer s.disk.Unlock()
	do()
}

// onDisk runs what writes, so that no signal ends the process half-way.
func (s *jotter) onDisk(write func() error) error {
	s.disk.Lock()
	defer s.disk.Unlock()
	return write()
}

// show prints the readings or the plot.
func (s *jotter) show(order string) {
	render := s.state.List
	if order == plot {
		render = s.state.Plot
	}
	text, err := render()
	if err != nil {
		s.tell("%v", err)
		return
	}
	fmt.Fprint(s.stdout, text)
}

// cylinder is the job's, with its stops, dwells and views, and these readings.
func (s *jotter) cylinder(readings []evidence.Reading) evidence.Cylinder {
	i := slices.IndexFunc(s.job.Cylinders, func(c evidence.Cylinder) bool { return c.Number == s.number })
	c := s.job.Cylinders[i]
	c.Readings = readings
	return c
}

// take is where the job stands with these readings.
func (s *jotter) take(readings []evidence.Reading) {
	j := s.job
	j.Setup.Protractor = j.Setup.Protractor.WrittenAs(readings)
	s.state = session.Jot{Job: j, File: s.file, Readings: readings}
	const least = 3
	cylinder := s.cylinder(readings)
	if len(readings) >= least || len(cylinder.Stops)+len(cylinder.Dwell)+len(cylinder.Views) > 0 {
		if result, err := tdc.Find(j.Setup, cylinder); err != nil {
			s.state.Why = err
		} else {
			s.state.Result = &result
		}
	}
	s.state.Next = s.next()
}

// next is the next best reading. While TDC is not told it is one of four that tell
// it: well down and nearer, on the rising side, then on the falling.
func (s *jotter) next() *plan.Next {
	if r := s.state.Result; r != nil && len(r.Readings) > 0 {
		if next, ok := plan.After(*s.state.Result, s.job.Setup, s.ground); ok {
			return &next
		}
		return nil
	}
	p, err := plan.Best(s.job.Setup, plan.Ground{Deepest: s.ground.Deepest, OneWay: true}, plan.Ground{OneWay: true}.Fewest())
	if err != nil {
		return nil
	}
	opening := []int{0, 2, 3, 5} // of three pairs, the deepest first
	point := p.Points[opening[min(len(s.state.Readings), len(opening)-1)]]
	return &plan.Next{Place: point.Place, Drop: point.Drop}
}

// stopped says that the sitting ends before its lines do, and is the exit status. A
// sitting at a terminal has no lines that were not read.
func (s *jotter) stopped(by os.Signal) int {
	code, says, every := answered, "", "Every"
	if !s.terminal {
		code, says = failed, fmt.Sprintf("Stopped (%v) after line %d: no line below it was read. ", by, s.read.Load())
	}
	if _, err := s.book.Readings(); err != nil {
		code, says = failed, says+err.Error()+". "
		every = "Else every"
	} else if news := s.book.News(); news != "" {
		code, says = failed, says+news+" "
		every = "Every other"
	}
	s.tell("\n%s", session.Wrapped(says+every+" reading that was answered is in "+s.file+". The next jot goes on from there."))
	return code
}

// onSignal ends the process on the signals that ask for it, between two writes.
// Everything that was answered is on the disk then.
func (s *jotter) onSignal() (stop func()) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	go func() {
		if signal, ok := <-signals; ok {
			s.disk.Lock()
			os.Exit(s.stopped(signal))
		}
	}()
	return func() {
		signal.Stop(signals)
		close(signals)
	}
}
