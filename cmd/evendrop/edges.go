package main

import (
	"evendrop/cmd/internal/answer/edges"
	"evendrop/tdc/job"
	"evendrop/tdc/wheel"
)

const edgesUsage = `evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2

Where the cam edges come in crank degrees after the gap of the crank wheel, from
a capture of both signals as CSV; of the crank signal alone, its teeth and gaps.
Any scope's file will do: header lines, comma, semicolon or tab, decimal commas,
words such as inf for samples out of range. So will a logic analyser's list of
changes: a row only when a level changes, whose time is the edge.

  --time COLUMN             its number from 1 or its heading; 1 unless told
  --crank COLUMN
  --cam COLUMN              repeatable; none for the crank alone
  --wheel 60-2              pitches-missing; 36-2-2 where there are more gaps,
                            whose places the capture tells; or degrees from edge
                            to edge from the first after the gap: 57x6,18. Left
                            out, what the signal shows is said and taken
  --time-unit s|ms|us|ns|samples
                            as the units row says unless told
  --rate N                  samples a second, where time is a sample number or
                            there is no time column (leave --time out)
  --crank-edge rising|falling
                            the leading edge of a tooth; found unless told
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

// edgesCommand is the flags of edges.
type edgesCommand struct {
	as, edge, against string
	picture, into     string
	marks, replace    bool
	on, at            []string
	tooth             int
	wheel             wheel.Wheel
	request           wheel.Request
}

func runEdges(args []string, out console) error {
	flags := flagSet("edges")
	var c edgesCommand
	flags.StringVar(&c.as, "as", "text", "")
	flags.StringVar(&c.edge, "crank-edge", "", "")
	flags.StringVar(&c.against, "against", "", "")
	flags.BoolVar(&c.marks, "marks", false, "")
	flags.StringArrayVar(&c.on, "on", nil, "")
	flags.IntVar(&c.tooth, "tooth", 0, "")
	flags.StringArrayVar(&c.at, "at", nil, "")
	flags.StringVar(&c.into, "into", "", "")
	flags.StringVar(&c.picture, "picture", "", "")
	flags.BoolVar(&c.replace, "replace", false, "")
	flags.StringVar(&c.request.Time, "time", "", "")
	flags.StringVar(&c.request.Crank, "crank", "", "")
	flags.StringArrayVar(&c.request.Cams, "cam", nil, "")
	name := flags.String("wheel", "", "")
	unit := flags.String("time-unit", "", "")
	rate := flags.String("rate", "", "")
	rest, err := parse(flags, args, edgesUsage, out.stdout)
	if err != nil {
		return err
	}
	if err := c.check(rest, *name, *unit, *rate); err != nil {
		return err
	}
	return c.answer(rest[0], out)
}

// answer measures a capture, writes what is asked for beside the answer, and then
// the answer.
func (c *edgesCommand) answer(file string, out console) error {
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
	if err := files.DoneWith(func() error { return c.say(out, answer) }); err != nil || added == "" {
		return err
	}
	out.tell("%s", added)
	return nil
}

// say is the answer itself.
func (c *edgesCommand) say(out console, answer edges.Edges) error {
	if c.marks {
		tables, _ := answer.Marks()
		return out.print(tables)
	}
	return out.write(answer, c.as)
}

// beside is the picture and what goes into the job, which comes last, and what to say
// of it.
func (c *edgesCommand) beside(answer edges.Edges, files *job.Together) (added string, err error) {
	if c.picture != "" {
		svg, err := c.draw(answer)
		if err != nil {
			return "", err
		}
		files.Write(c.picture, svg, c.replace)
	}
	if c.into != "" {
		return c.append(answer, files)
	}
	return "", nil
}
