// Command evendrop finds an engine's true top dead centre from protractor angles
// and piston depths, says how sure it is, and judges the engine's marks by it.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"syscall"

	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/disk"
)

// The exit statuses.
const (
	answered = 0
	failed   = 1 // a file, a number
	wrongUse = 2
	notFine  = 3 // with --strict: a mark is outside or too close to call
)

type command struct {
	name, use, does string
	run             func(args []string, c console) error
}

// commands in the order they are shown.
func commands() []command {
	return []command{
		{"find", "find [JOB]", "TDC, how sure it is, and the marks", runFind},
		{"keep", "keep [JOB] FILE", "store a healthy engine's marks as known-good", runKeep},
		{"recheck", "recheck BEFORE AFTER", "what changed between two jobs", runRecheck},
		{"halve", "halve A B [A B ...]", "TDC from pairs of angles at equal drop", runHalve},
		{"begin", "begin DIR", "a commented job and readings file to fill in", runBegin},
		{"plan", "plan [JOB]", "where to read, and how sure that makes TDC", runPlan},
		{"jot", "jot [JOB]", "type readings at the bench, TDC after each", runJot},
		{"motion", "motion --stroke --rod", "how the piston moves near TDC", runMotion},
		{"convert", "convert VALUE UNIT", "teeth, mm, cam and crank degrees", runConvert},
		{"edges", "edges CAPTURE", "cam edges after the gap, from a scope", runEdges},
		{"rehearse", "rehearse DIR", "practice readings, and an answer marked", runRehearse},
		{"cautions", "cautions", "the safety page", runCautions},
	}
}

func main() {
	signal.Ignore(syscall.SIGPIPE) // a pipe that nobody reads is an error like any other
	if stdoutClosed() {
		os.Exit(status(unwritten(errors.New("standard output is closed")), legible.Writer(os.Stderr)))
	}
	os.Exit(run(os.Args[1:], processConsole()))
}

// run carries out a command line: answers on stdout, everything else on stderr. An
// answer that could not be written is none. Whatever leaves here is legible.
func run(args []string, c console) int {
	out := &remembering{to: legible.Writer(c.stdout)}
	c.stdout, c.stderr = out, legible.Writer(c.stderr)
	code := carryOut(args, c)
	if out.err != nil && code == answered {
		return status(out.err, c.stderr)
	}
	return code
}

// remembering is a writer that keeps its first error.
type remembering struct {
	to  io.Writer
	err error
}

func (r *remembering) Write(p []byte) (int, error) {
	n, err := r.to.Write(p)
	if err != nil {
		err = unwritten(err)
	}
	if r.err == nil {
		r.err = err
	}
	return n, err
}

// unwritten says why an answer could not be written.
func unwritten(err error) error {
	if errors.Is(err, syscall.EPIPE) {
		return errors.New("the answer was cut short: the program reading it stopped")
	}
	return fmt.Errorf("the answer could not be written: %w", disk.Cause(err))
}

func carryOut(args []string, c console) int {
	if len(args) == 0 {
		args = []string{"help"}
	}
	switch args[0] {
	case "help", "--help", "-h":
		if len(args) > 1 && !slices.Contains([]string{"help", "--help", "-h"}, args[1]) {
			return carryOut([]string{args[1], "--help"}, c)
		}
		fmt.Fprint(c.stdout, welcome())
		return answered
	case "version", "--version":
		fmt.Fprintln(c.stdout, version())
		return answered
	}
	for _, command := range commands() {
		if command.name == args[0] {
			return status(command.run(args[1:], c), c.stderr)
		}
	}
	return status(misuse("evendrop has no command %q: type evendrop alone to see them", args[0]), c.stderr)
}

func misuse(format string, args ...any) error { return usage.Errorf(format, args...) }

// errNotFine is --strict's: the answer was given, and is not a clean one.
var errNotFine = errors.New("a mark is outside its limit or too close to call, or TDC cannot be determined")

// status turns an error into words and an exit status.
func status(err error, stderr io.Writer) int {
	if err == nil || errors.Is(err, flags.ErrHelp) {
		return answered
	}
	fmt.Fprintf(stderr, "evendrop: %s\n", legible.Message(words.Problem(err)))
	if errors.Is(err, errNotFine) {
		return notFine
	}
	if _, misused := errors.AsType[usage.Error](err); misused {
		return wrongUse
	}
	return failed
}
