package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"sync"
	"sync/atomic"
	"syscall"

	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/session"
	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/sheet"
)

func runJot(args []string, c console) error {
	set := flags.New("jot", "evendrop jot [JOB]",
		aJobToAdd+`
Say what you see at the bench, one thing a line: readings, stops, marks, a cam
lobe's lifts. Each is on disk in the job's files before TDC is determined from
all of them, and the next best reading named.`)
	cylinder := flags.Whole(set, "cylinder", 0, 1, 999, "2", "whose readings, the first one's unless stated")
	ground := groundFlags(set)
	set.Note(session.Help)
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	j, err := c.jobToAddTo("jot", rest)
	if err != nil {
		return err
	}
	if *cylinder > 0 {
		if _, err := place(j.Cylinders, *cylinder); err != nil {
			return err
		}
	}
	files := desk{notebook.Files{File: j.File, Unit: j.Unit, Setup: j.Setup}}
	s := session.Session{Job: j, Number: *cylinder, Files: &files, Width: c.width, Patient: c.terminal}
	if s.Ground, err = ground(j); err != nil {
		return err
	}
	at := &jotter{console: c, Session: &s}
	defer at.undisturbed(files.Close)
	return at.run()
}

// desk is the job's files, as a session has them.
type desk struct{ notebook.Files }

// Sheet opens a file of readings or lifts.
func (d *desk) Sheet(path string, kind sheet.Kind) (session.Store, string, error) {
	return d.Files.Sheet(path, kind)
}

// jotter is a session at a console.
type jotter struct {
	console
	*session.Session
	read atomic.Int64 // lines that were taken
	busy sync.Mutex   // held while a file may be written: no signal ends the process then
}

// undisturbed does what no signal must come between.
func (s *jotter) undisturbed(do func()) {
	s.busy.Lock()
	defer s.busy.Unlock()
	do()
}

func (s *jotter) run() error {
	stop := s.onSignal()
	defer stop()
	var said []session.Said
	var err error
	s.undisturbed(func() { said, err = s.Open() })
	if err := errors.Join(s.show(said), err); err != nil {
		return err
	}
	if s.terminal {
		s.remark(typed.In(s.Job.Unit, "Readings go to "+s.File+". Type an angle and a depth, such as 342.5 3.29, or help."))
		fmt.Fprint(s.stderr, s.Standing())
	}
	if err := s.listen(); err != nil {
		return err
	}
	s.undisturbed(func() { said, err = s.End() })
	if err := errors.Join(s.show(said), err); err != nil {
		return err
	}
	if *s.cut {
		s.remark("The last line has no end: make sure that it is whole.")
	}
	if s.terminal {
		return nil
	}
	return s.Fault()
}

// listen takes lines to the end.
func (s *jotter) listen() error {
	for ended := false; !ended; {
		if s.terminal {
			fmt.Fprintf(s.stderr, "%s> ", s.Prompt())
		}
		line, ok := s.line()
		if !ok {
			if s.terminal {
				s.tell("")
			}
			break
		}
		s.read.Add(1)
		var said []session.Said
		var err error
		s.undisturbed(func() { said, ended, err = s.Obey(line) })
		if err := errors.Join(s.show(said), err); err != nil {
			return err
		}
	}
	if err := s.lines.Err(); errors.Is(err, bufio.ErrTooLong) {
		return errors.New("a line is longer than 64 KB: nothing below it was read; type one reading a line")
	} else if err != nil {
		return fmt.Errorf("a line could not be read: %w", err)
	}
	return nil
}

// show writes what the session said.
func (s *jotter) show(said []session.Said) error {
	for _, what := range said {
		switch what.Kind {
		case session.Answer:
			if err := s.print([]byte(what.Text)); err != nil {
				return err
			}
		case session.AsItStands:
			fmt.Fprint(s.stderr, what.Text)
		default:
			s.remark(what.Text)
		}
	}
	return nil
}

// stopped says that the sitting ends before its lines do, and is the exit status. A
// sitting at a terminal has no lines that were not read.
func (s *jotter) stopped(by os.Signal) int {
	code, says, every := answered, "", "Every"
	if !s.terminal {
		code, says = failed, fmt.Sprintf("Stopped (%v) after line %d: no line below it was read. ", by, s.read.Load())
	}
	if _, err := s.Store.Readings(); err != nil {
		code, says = failed, says+err.Error()+". "
		every = "Apart from that, every"
	} else if news := s.Store.News(); news != "" {
		code, says = failed, says+news+" "
		every = "Every other"
	}
	s.tell("")
	s.remark(says + every + " reading that was answered is in " + s.File + ". The next jot goes on from there.")
	return code
}

// onSignal ends the process on the signals that ask for it, between two writes.
// Everything that was answered is on the disk then.
func (s *jotter) onSignal() (stop func()) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	go func() {
		if signal, ok := <-signals; ok {
			s.busy.Lock()
			os.Exit(s.stopped(signal))
		}
	}()
	return func() {
		signal.Stop(signals)
		close(signals)
	}
}
