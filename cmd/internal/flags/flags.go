// Package flags is the flags of a command: each reads itself, says what to type instead
// of what it cannot read, and has its line in the usage text.
package flags

import (
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/usage"
)

// Set is the flags of one command, in the order in which they are shown.
type Set struct {
	flags           *pflag.FlagSet
	synopsis, about string
	lines           []line
	later           []func() error // what is read once all flags are there
}

// ErrHelp is --help, which asks for the usage text.
var ErrHelp = pflag.ErrHelp

// New is a command without flags: its name, how it is typed, and what it does.
func New(name, synopsis, about string) *Set {
	s := &Set{flags: pflag.NewFlagSet(name, pflag.ContinueOnError), synopsis: synopsis, about: about}
	s.flags.SetOutput(io.Discard)
	s.flags.Usage = func() {}
	s.flags.SortFlags = false
	return s
}

// Parse reads a command line. What is left is the arguments that are no flags, in the
// order in which they were typed.
func (s *Set) Parse(args []string) ([]string, error) {
	err := s.flags.Parse(s.flagsFirst(args))
	switch {
	case errors.Is(err, ErrHelp):
		return nil, err
	case err != nil:
		return nil, s.complaint(err)
	}
	return s.flags.Args(), s.readLater()
}

func (s *Set) readLater() error {
	for _, read := range s.later {
		if err := read(); err != nil {
			return err
		}
	}
	return nil
}

// complaint says what was wrong with a flag.
func (s *Set) complaint(err error) error {
	if bad, ok := errors.AsType[*pflag.InvalidValueError](err); ok {
		return usage.Errorf("--%s %s: %v", bad.GetFlag().Name, bad.GetValue(), bad.Unwrap())
	}
	return usage.Errorf("%v: type evendrop %s --help", err, s.flags.Name())
}

// Given tells whether a flag was typed, or set.
func (s *Set) Given(name string) bool { return s.flags.Changed(name) }

// Set gives a flag a value as if it had been typed.
func (s *Set) Set(name, text string) error {
	if err := s.flags.Set(name, text); err != nil {
		return s.complaint(err)
	}
	return s.readLater()
}

// negative is a number that begins with a minus sign, and no flag.
var negative = regexp.MustCompile(`^- ?[0-9.,]`)

// flagsFirst sets flags with their values first, and behind "--" what stands for
// itself: pflag would take a number with a minus sign for flags of one letter. A flag
// whose value is missing comes last, where pflag says so.
func (s *Set) flagsFirst(args []string) []string {
	var first, last []string
	for len(args) > 0 {
		arg := args[0]
		args = args[1:]
		switch {
		case arg == "--":
			return slices.Concat(first, []string{"--"}, last, args)
		case negative.MatchString(arg), !strings.HasPrefix(arg, "-"):
			last = append(last, arg)
		case !s.waits(arg):
			first = append(first, arg)
		case len(args) == 0:
			return append(first, arg)
		default:
			first, args = append(first, arg, args[0]), args[1:]
		}
	}
	return slices.Concat(first, []string{"--"}, last)
}

// waits tells whether the value of a flag is the argument after it.
func (s *Set) waits(arg string) bool {
	flag := s.flags.Lookup(strings.TrimPrefix(arg, "--"))
	return flag != nil && flag.NoOptDefVal == ""
}

// Elsewhere refuses flags of other commands, and says why; the usage text has none of
// them.
func (s *Set) Elsewhere(why string, names ...string) {
	for _, name := range names {
		s.flags.Var(&value{read: func(string) error { return errors.New(why) }}, name, "")
	}
}
