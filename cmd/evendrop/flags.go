package main

import (
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/pflag"
)

// formats are the forms an answer can be printed in.
var formats = []string{"text", "markdown", "json", "csv"}

// flagSet is a command's flags, with a usage written by hand.
func flagSet(name string) *pflag.FlagSet {
	flags := pflag.NewFlagSet(name, pflag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.Usage = func() {}
	flags.SortFlags = false
	return flags
}

// parse reads flags, prints the usage when asked for it, and calls anything that
// cannot be read wrong use. What is left is the positional arguments, in the order
// they were typed.
func parse(flags *pflag.FlagSet, args []string, usage string, stdout io.Writer) ([]string, error) {
	err := flags.Parse(numbersLast(flags, args))
	if errors.Is(err, pflag.ErrHelp) {
		fmt.Fprint(stdout, usage)
		return nil, err
	}
	if err != nil {
		return nil, misuse("%v: type evendrop %s --help", err, flags.Name())
	}
	return flags.Args(), nil
}

// negative is a number that begins with a minus sign, and no flag.
var negative = regexp.MustCompile(`^- ?[0-9.,]`)

// numbersLast sets flags with their values first, and behind "--" what stands for
// itself: pflag would take a number with a minus sign for flags of one letter.
func numbersLast(flags *pflag.FlagSet, args []string) []string {
	var first, last []string
	for len(args) > 0 {
		arg := args[0]
		args = args[1:]
		switch {
		case arg == "--":
			return slices.Concat(first, []string{"--"}, last, args)
		case negative.MatchString(arg), !strings.HasPrefix(arg, "-"):
			last = append(last, arg)
		default:
			first = append(first, arg)
			if waits(flags, arg) && len(args) > 0 {
				first, args = append(first, args[0]), args[1:]
			}
		}
	}
	return slices.Concat(first, []string{"--"}, last)
}

// waits tells whether the value of a flag is the argument after it.
func waits(flags *pflag.FlagSet, arg string) bool {
	flag := flags.Lookup(strings.TrimPrefix(arg, "--"))
	return flag != nil && flag.NoOptDefVal == ""
}

// checkFormat refuses a form that no answer has.
func checkFormat(as string) error {
	if !slices.Contains(formats, as) {
		return misuse("--as %s: expected one of %s", as, strings.Join(formats, ", "))
	}
	return nil
}
