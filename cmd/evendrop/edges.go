package main

import (
	"evendrop/cmd/internal/answer/edges"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/form"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/signal"
)

// edgesCommand is edges: what was typed, and where the answer goes.
type edgesCommand struct {
	console
	typed             edges.Typed
	as, picture, edge *string
	marks, replace    *bool
	tooth             *int
}

func runEdges(args []string, out console) error {
	set := flags.New("edges", "evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2",
		`Where the cam edges come, in crank degrees after the gap of the crank wheel,
from a capture of both signals as CSV. Of the crank signal alone, its teeth and
gaps.
Any scope's file will do: header lines, comma, semicolon or tab, decimal commas,
words such as inf for samples out of range. So will a logic analyser's list of
changes: a row only when a level changes, whose time is the edge.`)
	c := newEdgesCommand(set, out)
	files, err := out.parse(set, args)
	if err != nil {
		return err
	}
	c.typed.Files, c.typed.CrankEdge, c.typed.Marks, c.typed.Tooth.Number = files, signal.Way(*c.edge), *c.marks, *c.tooth
	return c.answer()
}

func newEdgesCommand(set *flags.Set, out console) *edgesCommand {
	c := &edgesCommand{console: out}
	t := &c.typed
	text := func(into *string, name, kind, help string) { flags.Var(set, into, name, kind, help, flags.AnyText) }
	texts := func(into *[]string, name, kind, help string) { flags.List(set, into, name, kind, help, flags.One) }
	text(&t.Request.Time, "time", "COLUMN", "its number from 1 or its heading; 1 if left out")
	text(&t.Request.Crank, "crank", "COLUMN", "")
	texts(&t.Request.Cams, "cam", "COLUMN", "repeatable; none for the crank alone")
	flags.Var(set, &t.Wheel, "wheel", "60-2", "pitches-missing; 36-2-2 where there are more gaps, whose places the capture tells; or degrees from edge "+
		"to edge from the first after the gap: 57x6,18. Left out, what the signal shows is said and taken", wheel.ParseTold)
	flags.Var(set, &t.Request.Unit, "time-unit", "UNIT", "s, ms, us, ns or samples: as the units row says if left out", flags.AnyText)
	flags.Var(set, &t.Request.Rate, "rate", "N", "samples a second, where time is a sample number or there is no time column (leave --time out)",
		func(text string) (float64, error) {
			return flags.ParseNumber(text, func(x float64) bool { return x > 0 && x < 1e12 }, "samples a second, such as 50000")
		})
	c.edge = set.Choice("crank-edge", "", "the leading edge of a tooth; found if left out", string(signal.Rising), string(signal.Falling))
	text(&t.Against, "against", "OTHER.csv", "an earlier capture of the same columns, or a known-good .toml file made with --into: how far each edge "+
		"moved since, and what that points to")
	c.marks = set.Bool("marks", "[[mark]] entries to paste into a job file: with --against how far each cam moved, else where its edges are, "+
		"for evendrop keep of a healthy engine")
	text(&t.Into, "into", "JOB.toml", "the same at the end of a job file; its folder stands for its job.toml")
	texts(&t.On, "on", "MEMBER", `with --marks or --into: what carries each cam's wheel, in the order of --cam, such as "inlet wheel"`)
	c.tooth = flags.Whole(set, "tooth", 0, 1, flags.Many, "1", "with --into and --at: the tooth whose leading edge was at the sensor, 1 being the first after the gap")
	texts(&t.Tooth.At, "at", "ANGLE", "what the job's protractor read then (repeatable). Where the gap stands becomes a mark too")
	c.picture = set.File("picture", flags.Picture, "the signals folded over crank angle, teeth numbered")
	c.replace = set.Bool("replace", "overwrite the picture")
	c.as = set.As()
	return c
}

// answer measures the capture, writes what is asked for beside the answer, and then
// the answer.
func (c *edgesCommand) answer() error {
	question, err := c.typed.Completed()
	if err == nil {
		err = c.check()
	}
	if err == nil && c.typed.Into != "" {
		c.typed.Into, err = job.OnDisk(c.typed.Into)
	}
	if err != nil {
		return err
	}
	question.Open = c.openShown
	answer, err := question.Answer()
	if err != nil {
		return err
	}
	var files disk.Together
	added, err := c.beside(question, answer, &files)
	if err != nil {
		return err
	}
	if err := files.DoneWith(func() error { return c.say(answer) }); err != nil || added == "" {
		return err
	}
	c.tell("%s", added)
	return nil
}

// check refuses forms that do not go together, and to read a long capture for a
// picture that must not be written.
func (c *edgesCommand) check() error {
	switch {
	case c.typed.Marks && *c.as != "text":
		return misuse("--marks prints TOML: leave --as out")
	case *c.replace && *c.picture == "":
		return misuse("--replace goes with --picture FILE.svg")
	}
	if *c.picture == "" {
		return nil
	}
	return disk.MayWrite(*c.picture, *c.replace)
}

// say is the answer itself.
func (c *edgesCommand) say(answer edges.Edges) error {
	if c.typed.Marks {
		tables, _ := answer.Marks()
		return c.print(tables)
	}
	return c.write(form.Of(answer), *c.as)
}

// beside is the picture and what goes into the job, which comes last, and what to say
// of it.
func (c *edgesCommand) beside(question edges.Question, answer edges.Edges, files *disk.Together) (added string, err error) {
	if *c.picture != "" {
		svg, err := question.Draw(answer)
		if err != nil {
			return "", err
		}
		files.Write(*c.picture, svg, *c.replace)
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
