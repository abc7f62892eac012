package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"evendrop/cmd/internal/answer/edges"
	"evendrop/cmd/internal/legible"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
)

const edgesUsage = `evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2

Where the cam edges come in crank degrees after the gap of the crank wheel, from
a capture of both signals as CSV; of the crank signal alone, its teeth and gaps.
Any scope's file will do: header lines, comma, semicolon or tab, decimal commas,
words such as inf for samples out of range. So will a logic analyser's list of
changes: a row only when a level changes, whose time is the edge.

  --time COLUMN             its number from 1 or its heading; 1 if left out
  --crank COLUMN
  --cam COLUMN              repeatable; none for the crank alone
  --wheel 60-2              pitches-missing; 36-2-2 where there are more gaps,
                            whose places the capture tells; or degrees from edge
                            to edge from the first after the gap: 57x6,18. Left
                            out, what the signal shows is said and taken
  --time-unit s|ms|us|ns|samples
                            as the units row says if left out
  --rate N                  samples a second, where time is a sample number or
                            there is no time column (leave --time out)
  --crank-edge rising|falling
                            the leading edge of a tooth; found if left out
  --against OTHER.csv       an earlier capture of the same columns, or a
                            known-good .toml file made with --into: how far
                            each edge moved since, and what that points to
  --marks                   [[mark]] entries to paste into a job file: with
                            --against how far each cam moved, else where its
                            edges are, for evendrop keep of a healthy engine
  --into JOB.toml           the same at the end of a job file
  --on MEMBER               with --marks or --into: what carries each cam's
                            wheel, in the order of --cam, such as "inlet
                            wheel"
  --tooth N --at ANGLE      with --into: what the job's protractor read with the
                            leading edge of tooth N at the sensor, 1 being the
                            first after the gap. Where the gap stands becomes
                            a mark too; --at is repeatable
  --picture FILE.svg        the signals folded over crank angle, teeth
                            numbered
  --replace                 overwrite the picture
  --as text|markdown|json|csv
`

// edgesCommand is edges: what was typed, and where the answer goes.
type edgesCommand struct {
	typed       edges.Typed
	as, picture string
	replace     bool
}

func runEdges(args []string, stdout io.Writer) error {
	flags := flagSet("edges")
	var c edgesCommand
	t := &c.typed
	flags.StringVar(&c.as, "as", "text", "")
	flags.StringVar(&c.picture, "picture", "", "")
	flags.BoolVar(&c.replace, "replace", false, "")
	flags.StringVar(&t.Time, "time", "", "")
	flags.StringVar(&t.Crank, "crank", "", "")
	flags.StringArrayVar(&t.Cams, "cam", nil, "")
	flags.StringVar(&t.Wheel, "wheel", "", "")
	flags.StringVar(&t.Unit, "time-unit", "", "")
	flags.StringVar(&t.Rate, "rate", "", "")
	flags.StringVar(&t.CrankEdge, "crank-edge", "", "")
	flags.StringVar(&t.Against, "against", "", "")
	flags.BoolVar(&t.Marks, "marks", false, "")
	flags.StringVar(&t.Into, "into", "", "")
	flags.StringArrayVar(&t.On, "on", nil, "")
	flags.IntVar(&t.Tooth.Number, "tooth", 0, "")
	flags.StringArrayVar(&t.Tooth.At, "at", nil, "")
	var err error
	if t.Files, err = parse(flags, args, edgesUsage, stdout); err != nil {
		return err
	}
	err = c.answer(stdout)
	if wrong, ok := errors.AsType[edges.Misuse](err); ok {
		return misuse("%s", wrong)
	}
	return err
}

// answer measures the capture, writes what is asked for beside the answer, and then
// the answer.
func (c edgesCommand) answer(stdout io.Writer) error {
	question, err := c.typed.Question()
	if err == nil {
		err = c.check()
	}
	if err != nil {
		return err
	}
	question.Open = openShown
	answer, err := question.Answer()
	if err != nil {
		return err
	}
	var files disk.Together
	added, err := c.beside(question, answer, &files)
	if err != nil {
		return err
	}
	if err := files.DoneWith(func() error { return c.say(stdout, answer) }); err != nil || added == "" {
		return err
	}
	_, err = fmt.Fprintln(legible.Writer(os.Stderr), added)
	return err
}

// check refuses forms that do not go together, and to read a long capture for a
// picture that must not be written.
func (c edgesCommand) check() error {
	switch {
	case c.typed.Marks && c.as != "text":
		return misuse("--marks prints TOML: leave --as out")
	case c.replace && c.picture == "":
		return misuse("--replace goes with --picture FILE.svg")
	}
	if err := checkFormat(c.as); err != nil {
		return err
	}
	if err := pictureName(c.picture); err != nil || c.picture == "" {
		return err
	}
	return disk.MayWrite(c.picture, c.replace)
}

// say is the answer itself.
func (c edgesCommand) say(stdout io.Writer, answer edges.Edges) error {
	if c.typed.Marks {
		tables, _ := answer.Marks()
		_, err := stdout.Write(tables)
		return err
	}
	return write(stdout, answer, c.as)
}

// beside is the picture and what goes into the job, which comes last, and what to say
// of it.
func (c edgesCommand) beside(question edges.Question, answer edges.Edges, files *disk.Together) (added string, err error) {
	if c.picture != "" {
		svg, err := question.Draw(answer)
		if err != nil {
			return "", err
		}
		files.Write(c.picture, svg, c.replace)
	}
	if c.typed.Into == "" {
		return "", nil
	}
	tables, added, err := answer.Into(c.typed.Into, c.typed.Tooth)
	if err != nil {
		return "", err
	}
	return added, job.Append(files, c.typed.Into, tables)
}
