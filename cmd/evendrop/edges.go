package main

import (
	"errors"
	"slices"

	"evendrop/cmd/internal/answer/edges"
	"evendrop/cmd/internal/flags"
	"evendrop/tdc/job"
	"evendrop/tdc/wheel"
)

// edgesCommand is the flags of edges.
type edgesCommand struct {
	console
	as, edge, picture *string
	marks, replace    *bool
	tooth             *int
	against, into     string
	on, at            []string
	wheel             wheel.Wheel
	request           wheel.Request
}

func runEdges(args []string, out console) error {
	set := flags.New("edges", "evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2",
		`Where the cam edges come in crank degrees after the gap of the crank wheel, from
a capture of both signals as CSV; of the crank signal alone, its teeth and gaps.
Any scope's file will do: header lines, comma, semicolon or tab, decimal commas,
words such as inf for samples out of range. So will a logic analyser's list of
changes: a row only when a level changes, whose time is the edge.`)
	c := newEdgesCommand(set, out)
	rest, err := out.parse(set, args)
	if err != nil {
		return err
	}
	if err := c.check(rest); err != nil {
		return err
	}
	return c.answer(rest[0])
}

func newEdgesCommand(set *flags.Set, out console) *edgesCommand {
	c := &edgesCommand{console: out}
	text := func(into *string, name, kind, help string) {
		flags.Var(set, into, name, kind, help, func(text string) (string, error) { return text, nil })
	}
	texts := func(into *[]string, name, kind, help string) {
		flags.List(set, into, name, kind, help, func(text string) ([]string, error) { return []string{text}, nil })
	}
	text(&c.request.Time, "time", "COLUMN", "its number from 1 or its heading; 1 unless stated")
	text(&c.request.Crank, "crank", "COLUMN", "")
	texts(&c.request.Cams, "cam", "COLUMN", "repeatable; none for the crank alone")
	flags.Var(set, &c.wheel, "wheel", "60-2", "pitches-missing; 36-2-2 where there are more gaps, whose places the capture tells; or degrees from edge "+
		"to edge from the first after the gap: 57x6,18. Left out, what the signal shows is said and taken", wheel.ParseTold)
	flags.Var(set, &c.request.Unit, "time-unit", "UNIT", "s, ms, us, ns or samples: as the units row says unless stated", timeUnit)
	flags.Var(set, &c.request.Rate, "rate", "N", "samples a second, where time is a sample number or there is no time column (leave --time out)", rate)
	c.edge = set.Choice("crank-edge", "", "the leading edge of a tooth; found unless stated", string(wheel.Rising), string(wheel.Falling))
	text(&c.against, "against", "OTHER.csv", "an earlier capture of the same columns, or a known-good .toml file made with --into: how far each edge "+
		"moved since, and what that points to")
	c.marks = set.Bool("marks", "[[mark]] entries to paste into a job file: with --against how far each cam moved, else where its edges are, "+
		"for evendrop keep of a healthy engine")
	text(&c.into, "into", "JOB.toml", "the same at the end of a job file")
	texts(&c.on, "on", "MEMBER", `with --marks or --into: what carries each cam's wheel, in the order of --cam, such as "inlet wheel"`)
	c.tooth = flags.Whole(set, "tooth", 0, 1, flags.Many, "1", "with --into and --at: the tooth whose leading edge was at the sensor, 1 being the first after the gap")
	texts(&c.at, "at", "ANGLE", "what the job's protractor read then (repeatable). Where the gap stands becomes a mark too")
	c.picture = set.File("picture", flags.Picture, "the signals folded over crank angle, teeth numbered")
	c.replace = set.Bool("replace", "overwrite the picture")
	c.as = set.As()
	return c
}

// timeUnit is what a column of times is in.
func timeUnit(text string) (wheel.TimeUnit, error) {
	unit := wheel.TimeUnit(text)
	if !slices.Contains([]wheel.TimeUnit{wheel.Seconds, wheel.Milliseconds, wheel.Microseconds, wheel.Nanoseconds, wheel.Samples}, unit) {
		return "", errors.New("expected s, ms, us, ns or samples")
	}
	return unit, nil
}

// rate is samples a second.
func rate(text string) (float64, error) {
	return flags.ParseNumber(text, func(x float64) bool { return x > 0 && x < 1e12 }, "samples a second, such as 50000")
}

// answer measures a capture, writes what is asked for beside the answer, and then
// the answer.
func (c *edgesCommand) answer(file string) error {
	answer := edges.Edges{File: file, Against: c.against, On: c.on}
	var err error
	if answer.Result, err = c.measure(file); err != nil {
		return err
	}
	if c.against != "" {
		if err := c.compare(&answer); err != nil {
			return err
		}
	}
	var files job.Together
	added, err := c.beside(answer, &files)
	if err != nil {
		return err
	}
	if err := files.DoneWith(func() error { return c.say(answer) }); err != nil || added == "" {
		return err
	}
	c.tell("%s", added)
	return nil
}

// say is the answer itself.
func (c *edgesCommand) say(answer edges.Edges) error {
	if *c.marks {
		tables, _ := answer.Marks()
		return c.print(tables)
	}
	return c.write(answer, *c.as)
}

// beside is the picture and what goes into the job, which comes last, and what to say
// of it.
func (c *edgesCommand) beside(answer edges.Edges, files *job.Together) (added string, err error) {
	if *c.picture != "" {
		svg, err := c.draw(answer)
		if err != nil {
			return "", err
		}
		files.Write(*c.picture, svg, *c.replace)
	}
	if c.into != "" {
		return c.append(answer, files)
	}
	return "", nil
}
