package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/answer/newjob"
	"evendrop/cmd/internal/caution"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

const beginUsage = `evendrop begin DIR [--stroke MM --rod MM] [...]

Makes a commented job file and a readings file to fill in. On a terminal it asks
for what the flags leave out; through a pipe nothing waits, and what is left out
is unknown or usual. No file is overwritten.

  --yes                     the cautions have been read
  --name TEXT               of the engine
  --title TEXT              of the job
  --stroke MM, --rod MM     either may be left out
  --bore MM
  --pin-offset MM           toward the major thrust side positive
  --bore-offset MM          toward the other side positive
  --unit mm|in              of every length that has no unit of its own
  --counts with|against     protractor numbers grow with or against the
                            running direction
  --wraps 720|360|180|90    how the protractor's scale comes round
  --protractor-step DEG     smallest difference read
  --protractor-error DEG    bound on the protractor's own error
  --gauge dial|rod|borescope
  --gauge-counts down|up    numbers grow as the piston goes down or up
  --gauge-step MM, --gauge-error MM
  --scale-known-to FRACTION half-width about 1: gauge tilt, crown slope
  --lash MM, --lash-known-to MM
`

func runBegin(args []string, stdout io.Writer) error { return begin(args, processConsole(stdout)) }

// beginning is a job about to be written.
type beginning struct {
	console
	flags *pflag.FlagSet
	bare  bareJob
	name  *string
	title *string
}

// begin is the command at a console.
func begin(args []string, c console) error {
	b := beginning{console: c, flags: flagSet("begin")}
	yes := b.flags.Bool("yes", false, "")
	b.name, b.title = b.flags.String("name", "", ""), b.flags.String("title", "", "")
	b.bare = newBareJob(b.flags)
	rest, err := parse(b.flags, args, beginUsage, c.stdout)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return misuse("begin takes one folder: type for example evendrop begin bench --stroke 81.4 --rod 133 --gauge dial")
	}
	if err := b.check(); err != nil {
		return err
	}
	files := [2]string{filepath.Join(rest[0], "job.toml"), filepath.Join(rest[0], "cylinder-1.csv")}
	if err := free(rest[0], files[:]); err != nil {
		return err
	}
	if err := b.cautions(*yes); err != nil {
		return err
	}
	if c.terminal {
		if err := b.questions(); err != nil {
			return err
		}
	}
	return b.write(rest[0], files)
}

// check refuses flags that say nothing about an engine or make no sense.
func (b beginning) check() error {
	for _, name := range []string{"readings", "pin", "pin-limit"} {
		if b.flags.Changed(name) {
			return misuse("--%s is for find: leave it out, and write it into the job file that begin makes", name)
		}
	}
	for flag, text := range map[string]string{"name": *b.name, "title": *b.title} {
		if strings.ContainsFunc(text, unicode.IsControl) {
			return misuse("--%s: expected one line of text", flag)
		}
	}
	_, err := b.bare.setup()
	return err
}

// free tells that none of the files is there, nor anything else in the folder's
// place.
func free(dir string, files []string) error {
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return fmt.Errorf("%s: is a file: choose another name for the folder", dir)
	}
	for _, file := range files {
		if _, err := os.Lstat(file); err == nil && !halfMade(files, file) {
			return fmt.Errorf("%s: already exists, and begin overwrites nothing: choose another folder, or move it away first", file)
		}
	}
	return nil
}

// halfMade tells whether a file is the readings file of a begin that was killed before
// it wrote the job file: what begin writes, and no job beside it.
func halfMade(files []string, file string) bool {
	_, err := os.Lstat(files[0])
	return file == files[1] && err != nil && sameText(file, newjob.Begun{JobFile: files[0]}.Readings())
}

func sameText(file string, text []byte) bool {
	data, err := disk.ReadFile(file, "not found")
	return err == nil && bytes.Equal(data, text)
}

// cautions come before anything else. Somebody at a terminal says to have read
// them.
func (b beginning) cautions(yes bool) error {
	page, err := caution.Page()
	if err != nil {
		return err
	}
	fmt.Fprintf(b.stderr, "%s\n", page)
	if yes || !b.terminal {
		return nil
	}
	return b.ask("Type yes when you have read the cautions and will keep to them", "", func(answer string) error {
		if !strings.EqualFold(answer, "yes") {
			return errors.New("nothing is written before that: type yes, or press Ctrl-C to leave")
		}
		return nil
	})
}

// write writes both files, or none.
func (b beginning) write(dir string, files [2]string) error {
	setup, err := b.bare.setup()
	if err != nil {
		return err
	}
	if *b.bare.text["unit"] == "in" {
		setup = newjob.InInches(setup, b.flags.Changed)
	}
	begun := newjob.Begun{
		Title: *b.title, Unit: *b.bare.text["unit"], Setup: setup, JobFile: files[0], ReadingsFile: files[1],
		CountsUntried: !b.flags.Changed("counts"),
	}
	begun.Setup.Engine.Name = strings.TrimSpace(*b.name)
	if wrong, ok := errors.AsType[*source.Error](job.CheckBlank(files[0], begun.Job())); ok {
		return misuse("no such job can be: %s", wrong.Problem)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return folderError(dir, err)
	}
	page, err := begun.Text()
	if err != nil {
		return err
	}
	var together disk.Together
	// the readings file first: a job file never names one that is not there
	if !halfMade(files[:], files[1]) {
		together.Write(files[1], begun.Readings(), false)
	}
	together.Write(files[0], begun.Job(), false)
	return together.DoneWith(func() error {
		_, err := b.stdout.Write(page)
		return err
	})
}

func folderError(dir string, err error) error {
	if errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("%s: may not be made: choose another folder", dir)
	}
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		err = path.Err
	}
	return fmt.Errorf("%s: cannot be made: %w", dir, err)
}
