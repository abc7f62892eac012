// Package flags is the flags of a command: each reads itself, says what to type instead
// of what it cannot read, and has its line in the usage text.
package flags

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"evendrop/cmd/internal/form"
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
// order in which they were typed. An error is ErrHelp, or a usage.Error of a flag that is
// unknown, has no value or a wrong one.
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

// Typed is the names of the flags that were typed, or set, in the order in which they are
// shown.
func (s *Set) Typed() (names []string) {
	s.flags.Visit(func(f *pflag.Flag) { names = append(names, f.Name) })
	return names
}

// Set gives a flag a value as if it had been typed. An error is a usage.Error of a flag
// that is unknown, or of a wrong value.
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

// line is a line of the usage text: a flag, a heading over flags, or a remark.
type line struct {
	flag          *pflag.Flag
	heading, note string
}

// Heading sets a heading over the flags that follow.
func (s *Set) Heading(text string) { s.lines = append(s.lines, line{heading: text}) }

// Note sets text below the flags so far, as it stands.
func (s *Set) Note(text string) { s.lines = append(s.lines, line{note: text}) }

// From is the names of the flags from a heading on.
func (s *Set) From(heading string) []string {
	from := slices.IndexFunc(s.lines, func(l line) bool { return l.heading == heading })
	var names []string
	for _, l := range s.lines[from+1:] {
		if l.flag != nil {
			names = append(names, l.flag.Name)
		}
	}
	return names
}

const helpColumn = 28

// Usage is the usage text: how the command is typed, what it does, and its flags.
func (s *Set) Usage() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\n", s.synopsis, s.about)
	for i, l := range s.lines {
		switch {
		case l.heading != "":
			fmt.Fprintf(&b, "\n%s:\n", l.heading)
		case l.note != "":
			fmt.Fprintf(&b, "\n%s\n", l.note)
		default:
			if i == 0 || s.lines[i-1].note != "" {
				b.WriteString("\n")
			}
			b.WriteString(l.row())
		}
	}
	return b.String()
}

// row is a flag, what stands behind it, and what it is for.
func (l line) row() string {
	head := strings.TrimRight("  --"+l.flag.Name+" "+l.flag.Value.Type(), " ")
	if l.flag.Usage == "" {
		return head + "\n"
	}
	indent := strings.Repeat(" ", helpColumn)
	help := strings.ReplaceAll(form.Wrap(l.flag.Usage, form.Widest-helpColumn), "\n", "\n"+indent)
	if len(head) >= helpColumn {
		return head + "\n" + indent + help + "\n"
	}
	return fmt.Sprintf("%-*s%s\n", helpColumn, head, help)
}
