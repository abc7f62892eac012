package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/evendrop/internal/report"
	"evendrop/tdc/job"
	"evendrop/tdc/wheel"
)

const edgesUsage = `evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2

Where the cam edges come in crank degrees after the gap of the crank wheel, from
a capture of both signals as CSV. Any scope's file will do: header lines, comma,
semicolon or tab, decimal commas, words such as inf for samples out of range.

  --time COLUMN             its number from 1 or its heading; 1 unless told
  --crank COLUMN
  --cam COLUMN              repeatable
  --wheel 60-2              pitches-missing, or degrees from edge to edge from
                            the first after the gap: 57x6,18
  --time-unit s|ms|us|ns|samples
                            as the units row says unless told
  --rate N                  samples a second, where time is a sample number or
                            there is no time column (leave --time out)
  --crank-edge rising|falling
                            the leading edge of a tooth; found unless told
  --against OTHER.csv       an earlier capture of the same columns, or a
                            known-good .toml file made with --places: how far
                            each edge moved since, and what that points to
  --marks                   [[mark]] entries to paste into a job file
  --places                  with --marks: where the edges of a healthy engine
                            are, for a job that evendrop keep makes known-good
  --into JOB.toml           the same at the end of a job file, of the edges
                            whose shift --against tells
  --on MEMBER               with --marks or --into: what carries each cam's
                            wheel, in the order of --cam, such as "inlet
                            wheel"
  --picture FILE.svg        the signals folded over crank angle, teeth
                            numbered
  --replace                 overwrite the picture
  --as text|markdown|json|csv
`

// edgesCommand is the flags of edges.
type edgesCommand struct {
	as, edge, against string
	picture, into     string
	marks, replace    bool
	places            bool
	on                []string
	wheel             wheel.Wheel
	request           wheel.Request
}

func runEdges(args []string, stdout io.Writer) error {
	flags := flagSet("edges")
	var c edgesCommand
	flags.StringVar(&c.as, "as", "text", "")
	flags.StringVar(&c.edge, "crank-edge", "", "")
	flags.StringVar(&c.against, "against", "", "")
	flags.BoolVar(&c.marks, "marks", false, "")
	flags.StringArrayVar(&c.on, "on", nil, "")
	flags.BoolVar(&c.places, "places", false, "")
	flags.StringVar(&c.into, "into", "", "")
	flags.StringVar(&c.picture, "picture", "", "")
	flags.BoolVar(&c.replace, "replace", false, "")
	flags.StringVar(&c.request.Time, "time", "", "")
	flags.StringVar(&c.request.Crank, "crank", "", "")
	flags.StringArrayVar(&c.request.Cams, "cam", nil, "")
	name := flags.String("wheel", "", "")
	unit := flags.String("time-unit", "", "")
	rate := flags.String("rate", "", "")
	rest, err := parse(flags, args, edgesUsage, stdout)
	if err != nil {
		return err
	}
	if err := c.check(rest, *name, *unit, *rate); err != nil {
		return err
	}
	answer := report.Edges{File: rest[0], Against: c.against, On: c.on, Places: c.places}
	if answer.Result, err = c.measure(rest[0]); err != nil {
		return err
	}
	if c.against != "" {
		if err := c.compare(&answer); err != nil {
			return err
		}
	}
	if c.picture != "" {
		if err := c.draw(answer); err != nil {
			return err
		}
	}
	if c.into != "" {
		if err := c.append(answer); err != nil {
			return err
		}
	}
	if c.marks {
		_, err := stdout.Write(answer.Marks())
		return err
	}
	return write(stdout, answer, c.as)
}

// check refuses a command line that cannot be carried out, and completes it.
func (c *edgesCommand) check(files []string, name, unit, rate string) error {
	q := &c.request
	switch {
	case len(files) != 1:
		return misuse("edges takes one capture, and was given %d: type for example evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2", len(files))
	case files[0] == "-" || c.against == "-":
		return misuse("edges reads a capture twice and cannot read it from a pipe: save it and name the file")
	case q.Crank == "":
		return misuse("edges needs the crank signal's column: type for example --crank 2")
	case len(q.Cams) == 0:
		return misuse("edges needs the cam signal's column: type for example --cam 3")
	case name == "":
		return misuse("edges needs the crank wheel: type for example --wheel 60-2 (60 pitches, 2 teeth missing)")
	case c.edge != "" && c.edge != string(wheel.Rising) && c.edge != string(wheel.Falling):
		return misuse("--crank-edge %s: expected rising or falling", c.edge)
	case c.marks && c.as != "text":
		return misuse("--marks prints TOML: leave --as out")
	case c.into != "" && c.against == "":
		return misuse("--into needs --against OTHER.csv, since an edge without a known shift is no mark yet; --marks prints what there is")
	case c.places && (!c.marks || c.against != "" || c.into != ""):
		return misuse("--places goes with --marks, without --against and --into: it prints where a healthy engine's edges are")
	case c.replace && c.picture == "":
		return misuse("--replace goes with --picture FILE.svg")
	case len(c.on) > 0 && (!c.marks && c.into == "" || len(c.on) != len(q.Cams)):
		return misuse("--on goes with --marks or --into, once for each --cam")
	}
	if err := checkFormat(c.as); err != nil {
		return err
	}
	if err := c.checkTime(unit, rate); err != nil {
		return err
	}
	if err := c.checkColumns(); err != nil {
		return err
	}
	var err error
	if c.wheel, err = wheel.Parse(name); err != nil {
		return misuse("--wheel %v", err)
	}
	return nil
}

// checkTime completes how time is told: with a rate and no column, by the rows.
func (c *edgesCommand) checkTime(unit, rate string) error {
	q := &c.request
	if rate != "" {
		value, err := strconv.ParseFloat(rate, 64)
		if err != nil || !(value > 0 && value < 1e12) {
			return misuse("--rate %s: expected samples a second, such as 50000", rate)
		}
		q.Rate = value
	}
	q.Unit = wheel.TimeUnit(unit)
	units := []wheel.TimeUnit{"", wheel.Seconds, wheel.Milliseconds, wheel.Microseconds, wheel.Nanoseconds, wheel.Samples}
	switch {
	case !slices.Contains(units, q.Unit):
		return misuse("--time-unit %s: expected s, ms, us, ns or samples", unit)
	case q.Unit == wheel.Samples && q.Rate == 0:
		return misuse("--time-unit samples needs the rate: type for example --rate 50000")
	case q.Time == "" && q.Rate > 0 && q.Unit != "" && q.Unit != wheel.Samples:
		return misuse("--rate without --time counts rows: leave --time-unit %s out, or type --time 1", unit)
	case q.Time == "" && q.Rate == 0:
		q.Time = "1"
	}
	return nil
}

// checkColumns refuses numbers that are no column, and one column twice.
func (c *edgesCommand) checkColumns() error {
	q := c.request
	all := append([]string{q.Crank}, q.Cams...)
	if q.Time != "" {
		all = append(all, q.Time)
	}
	for i, column := range all {
		if n, err := strconv.Atoi(column); (err == nil && (n < 1 || n > wheel.MostColumns)) || strings.TrimSpace(column) == "" {
			return misuse("column %q: expected a number from 1, or a heading", column)
		}
		if slices.Contains(all[:i], column) {
			return misuse("column %s is given twice: time, crank and each cam have columns of their own", column)
		}
	}
	return nil
}

// measure reads a capture, twice.
func (c *edgesCommand) measure(file string) (wheel.Result, error) {
	var survey wheel.Survey
	var trace wheel.Trace
	var result wheel.Result
	err := reading(file, func(r io.Reader) (err error) {
		survey, err = wheel.Look(r, c.request)
		return err
	})
	if err == nil {
		err = reading(file, func(r io.Reader) (err error) {
			trace, err = wheel.Time(r, survey)
			return err
		})
	}
	if err == nil {
		result, err = wheel.Measure(trace, c.wheel, wheel.Way(c.edge))
	}
	return result, inCapture(file, err)
}

// draw reads the capture once more and writes its picture, whole or not at all.
func (c *edgesCommand) draw(answer report.Edges) error {
	var traces []wheel.Folded
	err := reading(answer.File, func(r io.Reader) (err error) {
		traces, err = answer.Result.Fold(r)
		return err
	})
	if err != nil {
		return inCapture(answer.File, err)
	}
	svg, err := answer.Picture(traces)
	if err != nil {
		return err
	}
	return job.Write(c.picture, svg, c.replace)
}

// append writes the edges to the end of a job, and says so beside the answer.
func (c *edgesCommand) append(answer report.Edges) error {
	tables, marks := answer.Appended()
	if len(marks) == 0 {
		return fmt.Errorf("%s: no edge has a shift with an uncertainty, so nothing was written: capture more turns, ten at least", c.into)
	}
	if err := job.Append(c.into, tables); err != nil {
		return err
	}
	fmt.Fprintf(os.Stderr, "%s: %d marks were added at the end. The gap of the crank wheel stands there as a comment: a capture does not show TDC, "+
		"so read it on the protractor first.\n", c.into, len(marks))
	return nil
}

// reading opens a file for the time of one reading.
func reading(file string, read func(io.Reader) error) error {
	f, err := os.Open(file)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() {
		return &wheel.Fault{Problem: "is no file that can be read twice: save the capture and name it"}
	}
	r, done := told(f, info.Size())
	defer done()
	return read(r)
}

// compare reads the earlier capture and holds the answer against it.
func (c *edgesCommand) compare(answer *report.Edges) error {
	measure := c.measure
	known := strings.EqualFold(filepath.Ext(c.against), ".toml")
	if known {
		measure = func(file string) (wheel.Result, error) { return knownEdges(file, answer.Result) }
	}
	before, err := measure(c.against)
	if err != nil {
		return err
	}
	comparison, err := wheel.Compare(before, answer.Result)
	if err != nil {
		return inCapture(c.against, err)
	}
	if known {
		comparison.Notes = append(comparison.Notes, "The known-good file does not tell speed or leads: compare at the speed and with the leads that it was made with.")
	}
	answer.Comparison = &comparison
	return nil
}

// inCapture names the file that an error is about, and the line.
func inCapture(file string, err error) error {
	fault, ok := errors.AsType[*wheel.Fault](err)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, os.ErrNotExist) || errors.Is(err, os.ErrPermission):
		return err // names the file
	case ok && fault.Line > 0 && fault.Column > 0:
		return fmt.Errorf("%s:%d: column %d: %s", file, fault.Line, fault.Column, fault.Problem)
	case ok && fault.Line > 0:
		return fmt.Errorf("%s:%d: %s", file, fault.Line, fault.Problem)
	}
	return fmt.Errorf("%s: %w", file, err)
}
