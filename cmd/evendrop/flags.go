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
// cannot be read wrong use. A number with a minus sign is no flag.
func parse(flags *pflag.FlagSet, args []string, usage string, stdout io.Writer) ([]string, error) {
	flagArgs, numbers := apart(args)
	err := flags.Parse(flagArgs)
	if errors.Is(err, pflag.ErrHelp) {
		fmt.Fprint(stdout, usage)
		return nil, err
	}
	if err != nil {
		return nil, misuse("%v: type evendrop %s --help", err, flags.Name())
	}
	return merge(args, flags.Args(), numbers), nil
}

// negative is a number that begins with a minus sign.
var negative = regexp.MustCompile(`^-[0-9.]`)

// apart takes the arguments that are negative numbers away from those that pflag
// is to see, unless a flag waits for its value.
func apart(args []string) (rest, numbers []string) {
	for i, arg := range args {
		if negative.MatchString(arg) && !(i > 0 && strings.HasPrefix(args[i-1], "--") && !strings.Contains(args[i-1], "=")) {
			numbers = append(numbers, arg)
		} else {
			rest = append(rest, arg)
		}
	}
	return rest, numbers
}

// merge puts the negative numbers back among the positional arguments, in the
// order they were typed.
func merge(args, positional, numbers []string) []string {
	if len(numbers) == 0 {
		return positional
	}
	var merged []string
	for _, arg := range args {
		switch {
		case len(numbers) > 0 && arg == numbers[0]:
			merged, numbers = append(merged, arg), numbers[1:]
		case len(positional) > 0 && arg == positional[0]:
			merged, positional = append(merged, arg), positional[1:]
		}
	}
	return merged
}

// checkFormat refuses a form that no answer has.
func checkFormat(as string) error {
	if !slices.Contains(formats, as) {
		return misuse("--as %s: expected one of %s", as, strings.Join(formats, ", "))
	}
	return nil
}
