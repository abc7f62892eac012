package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"sync"
	"syscall"

	"evendrop/cmd/evendrop/internal/report"
	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

const jotUsage = `evendrop jot JOB

Type readings at the bench, one a line, into the job's readings file. Each is on
disk before TDC is told from all of them, and the next best reading named.

  --cylinder N              whose readings, the first one's unless stated
  --one-way                 never ask to turn the crank back
  --deepest MM              as far down as the gauge reaches

` + jotHelp

const jotHelp = `What to type:
  342.5 3.29                angle and depth
  342.5 3.29 # wobbly       with a note
  b 11.8 0.70               after turning back, as the next ones are
  f 340 4.10                after turning forward again
  b, f                      only say which way the crank is turned from here on
  undo                      strike the last reading out; it stays as a comment
  list, plot, next          what was read; the curve; the next best reading
  # new pointer             a remark
  done                      end; the next jot goes on where this one ended
`

func runJot(args []string, stdout io.Writer) error { return jot(args, processConsole(stdout)) }

// jot is the command at a console.
func jot(args []string, c console) error {
	flags := flagSet("jot")
	cylinder := flags.Int("cylinder", 0, "")
	oneWay := flags.Bool("one-way", false, "")
	deepest := flags.String("deepest", "", "")
	rest, err := parse(flags, args, jotUsage, c.stdout)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return misuse("jot takes one job file: type for example evendrop jot job.toml, or evendrop begin DIR to make one")
	}
	j, err := job.OpenBlank(rest[0])
	if err != nil {
		return err
	}
	ground, err := groundOf(j, *oneWay, *deepest)
	if err != nil {
		return err
	}
	number, file, err := readingsFile(j, *cylinder)
	if err != nil {
		return err
	}
	release, err := lock(file)
	if err != nil {
		return err
	}
	defer release()
	s := session{console: c, job: j, number: number, file: file, ground: ground, turn: tdc.Forward, release: release}
	return s.run()
}

// groundOf is where the job's gauge can read.
func groundOf(j job.Job, oneWay bool, deepest string) (plan.Ground, error) {
	g := plan.Ground{Deepest: plan.Deepest(j.Setup.Gauge.Kind), OneWay: oneWay}
	if deepest == "" {
		return g, nil
	}
	length, err := job.ParseLength(deepest, j.Unit)
	if err != nil || length <= 0 {
		return g, misuse("--deepest %s: expected a length such as 8", deepest)
	}
	g.Deepest = length
	return g, nil
}

// readingsFile is the file of a cylinder's readings; of the first one's for 0.
func readingsFile(j job.Job, number int) (int, string, error) {
	if number == 0 {
		number = j.Cylinders[0].Number
	}
	for _, c := range j.Cylinders {
		if c.Number != number {
			continue
		}
		if file, ok := j.ReadingsFiles[number]; ok {
			return number, file, nil
		}
		return 0, "", fmt.Errorf("%s: cylinder %d names no readings file: add readings = \"cylinder-%d.csv\" to it", j.File, number, number)
	}
	return 0, "", misuse("--cylinder %d: the job has none of that number", number)
}

// session is one sitting at the bench.
type session struct {
	console
	job     job.Job
	number  int // of the cylinder
	file    string
	ground  plan.Ground
	book    *job.Notebook
	turn    tdc.TurnDirection // of the readings to come
	state   report.Jot
	warned  bool       // of turning back
	bad     int        // lines that were not understood
	disk    sync.Mutex // held while a file is written
	release func()     // of the lock
}

// errNotUnderstood is the end of a pipe some of whose lines were no readings.
var errNotUnderstood = errors.New("some lines were not understood: see above")

func (s *session) run() error {
	book, says, err := job.OpenNotebook(s.file, s.job.Setup, s.job.Unit)
	if err != nil {
		return err
	}
	s.book = book
	stop := s.onSignal()
	defer stop()
	s.tell("%s", report.Wrapped(report.TurnCaution))
	if says != "" {
		s.tell("%s", report.Wrapped(says))
	}
	readings, err := book.Readings()
	if err != nil {
		return err
	}
	if n := len(readings); n > 0 {
		s.turn = readings[n-1].Turn
	}
	s.take(readings)
	if s.terminal {
		s.tell("%s", report.Wrapped("Readings go to "+s.file+". Type an angle and a depth, such as 342.5 3.29, or help."))
		fmt.Fprint(s.stderr, s.state.Standing())
	}
	return s.listen()
}

// listen takes lines to the end.
func (s *session) listen() error {
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
		ended, err := s.obey(line)
		if err != nil {
			return err
		}
		if next := s.state.Next; next != nil && next.Turn == tdc.Backward {
			s.warnOfTurningBack()
		}
		if ended {
			break
		}
	}
	if err := s.lines.Err(); err != nil {
		return fmt.Errorf("a line could not be read: %w", err)
	}
	page, err := s.state.Summary()
	if err != nil {
		return err
	}
	if _, err := s.stdout.Write(page); err != nil {
		return err
	}
	if s.bad > 0 && !s.terminal {
		return errNotUnderstood
	}
	return nil
}

// obey does what a line asks for. A reading that could not be kept ends a pipe,
// whose next lines may count on it; somebody at a terminal may try again.
func (s *session) obey(line string) (ended bool, err error) {
	t, err := parseLine(line, s.job.Setup, s.job.Unit)
	if err != nil {
		s.bad++
		s.tell("%s", report.Wrapped(err.Error()))
		return false, nil
	}
	if t.turn != 0 {
		s.turnTo(t.turn)
	}
	switch t.order {
	case takeReading, takeRemark, undo:
		if err = s.write(t); err != nil && s.terminal {
			s.tell("%s", report.Wrapped("This was not kept: "+err.Error()))
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

// turnTo changes the way the crank is turned.
func (s *session) turnTo(turn tdc.TurnDirection) {
	s.turn = turn
	if turn == tdc.Backward {
		s.warnOfTurningBack()
	}
}

// warnOfTurningBack says the caution once, as soon as turning back is asked for.
func (s *session) warnOfTurningBack() {
	if !s.warned {
		s.warned = true
		s.tell("%s", report.Wrapped(report.TurnBackCaution))
	}
}

// write does what changes the file, and answers once it is on the disk.
func (s *session) write(t typed) error {
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
		_, err = fmt.Fprintf(s.stdout, "     Struck out: %s\n%s", plainLine(struck), s.state.Standing())
		return err
	}
	t.entry.Turn = s.turn
	var readings []tdc.Reading
	err := s.onDisk(func() (err error) {
		readings, err = s.book.Add(t.entry)
		return err
	})
	if err != nil {
		return err
	}
	s.take(readings)
	_, err = fmt.Fprint(s.stdout, s.state.Answer(before))
	return err
}

// onDisk runs what writes, so that no signal ends the process half-way.
func (s *session) onDisk(write func() error) error {
	s.disk.Lock()
	defer s.disk.Unlock()
	return write()
}

// show prints the readings or the plot.
func (s *session) show(order string) {
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

// take is where the job stands with these readings.
func (s *session) take(readings []tdc.Reading) {
	s.state = report.Jot{Job: s.job, File: s.file, Readings: readings}
	const least = 3
	if len(readings) >= least {
		cylinder := tdc.Cylinder{Number: s.number, Readings: readings}
		if result, err := tdc.Find(s.job.Setup, cylinder); err != nil {
			s.state.Why = err
		} else {
			s.state.Result = &result
		}
	}
	s.state.Next = s.next()
}

// next is the next best reading. While TDC is not told it is one of four that tell
// it: well down and nearer, on the rising side, then on the falling.
func (s *session) next() *plan.Next {
	if s.state.Result != nil {
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

// onSignal ends the process on the signals that ask for it, between two writes.
// Everything that was answered is on the disk then.
func (s *session) onSignal() (stop func()) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	go func() {
		if _, ok := <-signals; ok {
			s.disk.Lock()
			s.tell("\n%s", report.Wrapped("Every reading that was answered is in "+s.file+". The next jot goes on from there."))
			s.release()
			os.Exit(answered)
		}
	}()
	return func() {
		signal.Stop(signals)
		close(signals)
	}
}
