package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"evendrop/cmd/internal/answer/newjob"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/flags/setup"
	"evendrop/tdc/job"
)

// beginning is a job about to be made.
type beginning struct {
	console
	*flags.Set
	setup.Flags
	yes         *bool
	name, title *string
}

func runBegin(args []string, c console) error {
	b := beginning{console: c, Set: flags.New("begin", "evendrop begin DIR [--stroke MM --rod MM] [...]",
		`Makes a commented job file and a readings file to fill in. On a terminal it asks
for what the flags leave out (? explains, back goes back), and goes on to take
readings. Where the folder holds a job, it adds to that. Through a pipe it asks
nothing: what is left out is unknown, or what is usual. No file is overwritten.`)}
	b.yes = b.Bool("yes", "the cautions have been read")
	b.name, b.title = b.oneLine("name", "of the engine"), b.oneLine("title", "of the job")
	b.Flags = setup.New(b.Set)
	b.Elsewhere("is for find: leave it out, and write it into the job file that begin makes", "readings", "pin", "pin-limit")
	rest, err := c.parse(b.Set, args)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return misuse("begin takes one folder: type for example evendrop begin bench --stroke 81.4 --rod 133 --gauge dial")
	}
	if _, err := b.Setup(); err != nil {
		return err
	}
	if c.terminal && !b.describes() {
		if j, err := job.OpenBlank(newjob.FileIn(rest[0])); err == nil {
			return b.again(j)
		}
	}
	begun, err := newjob.In(rest[0])
	if err != nil {
		return err
	}
	if err := b.cautions(); err != nil {
		return err
	}
	if !c.terminal {
		return b.make(begun)
	}
	if err := b.questions(&begun); err != nil {
		return err
	}
	if err := b.make(begun); err != nil {
		return err
	}
	return b.startReading(begun.JobFile)
}

// describes tells whether any flag describes a new job.
func (b beginning) describes() bool {
	return b.Given("name") || b.Given("title") || slices.ContainsFunc(b.From("Engine, leaving out what is unknown"), b.Given) || b.Given("unit")
}

// oneLine adds a flag of one line of text.
func (b beginning) oneLine(name, help string) *string {
	line := new(string)
	flags.Var(b.Set, line, name, "TEXT", help, func(text string) (string, error) {
		if strings.ContainsFunc(text, unicode.IsControl) {
			return "", errors.New("expected one line of text")
		}
		return text, nil
	})
	return line
}

// cautions come before anything else. Somebody at a terminal has them on one screen, and
// says to have read them.
func (b beginning) cautions() error {
	show := caution.Page
	if b.terminal {
		show = caution.Screen
	}
	page, err := show(b.width)
	if err != nil {
		return err
	}
	fmt.Fprintf(b.stderr, "%s\n", page)
	if *b.yes || !b.terminal {
		return nil
	}
	return b.ask("Read, and will you keep to them? y or n", "", func(answer string) error {
		if low := strings.ToLower(answer); low != "yes" && low != "y" {
			return errors.New("nothing is written before that: type y once you have read them, or press Ctrl-C to leave")
		}
		return nil
	})
}

// make makes the job of the flags and the answers.
func (b beginning) make(begun newjob.Begun) (err error) {
	sides := begun.Setup.Protractor.Sides
	begun.Title, begun.Unit, begun.CountsUntried = *b.title, *b.Flags.Unit, !b.Given("counts")
	if begun.Setup, err = b.Setup(); err != nil {
		return err
	}
	begun.Setup.Protractor.Sides = sides
	if *b.Flags.Unit == "in" {
		begun.Setup = newjob.InInches(begun.Setup, b.Given)
	}
	begun.Setup.Engine.Name = strings.TrimSpace(*b.name)
	page, err := begun.Text(b.width)
	if err != nil {
		return err
	}
	return begun.Make(func() error { return b.print(page) })
}
