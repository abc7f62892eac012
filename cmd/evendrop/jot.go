package main

import (
	"fmt"
	"io"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/notebook"
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
	book, says, err := notebook.OpenNotebook(file, j.Setup, j.Unit)
	if err != nil {
		return err
	}
	s := jotter{console: c, job: j, number: number, file: file, ground: ground, turn: evidence.Forward, book: book}
	defer s.locked(book.Close)
	return s.run(says)
}

// groundOf is where the job's gauge can read.
func groundOf(j job.Job, oneWay bool, deepest string) (plan.Ground, error) {
	g := plan.Ground{Deepest: plan.Deepest(j.Setup.Gauge.Kind), OneWay: oneWay}
	if deepest == "" {
		return g, nil
	}
	length, err := measure.ParseLength(deepest, j.Unit)
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
