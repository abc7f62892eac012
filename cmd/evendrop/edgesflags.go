package main

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"github.com/spf13/pflag"

	cli "evendrop/cmd/internal/flags"
)

// flagSet is a command's flags, with a usage written by hand.
func flagSet(name string) *pflag.FlagSet {
	flags := pflag.NewFlagSet(name, pflag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.Usage = func() {}
	return flags
}

// parse reads flags, prints the usage when asked for it, and calls anything that
// cannot be read wrong use. What is left is the positional arguments.
func parse(flags *pflag.FlagSet, args []string, usage string, stdout io.Writer) ([]string, error) {
	err := flags.Parse(args)
	if errors.Is(err, pflag.ErrHelp) {
		fmt.Fprint(stdout, usage)
		return nil, err
	}
	if err != nil {
		return nil, misuse("%v: type evendrop %s --help", err, flags.Name())
	}
	return flags.Args(), nil
}

// checkFormat refuses a form that no answer has.
func checkFormat(as string) error {
	if !slices.Contains(cli.Formats, as) {
		return misuse("--as %s: expected %s", as, cli.Or(cli.Formats))
	}
	return nil
}

// pictureName refuses a picture's name that ends as one of another kind does.
func pictureName(file string) error {
	if err := cli.Picture.Check(file); err != nil {
		return misuse("--picture %s: %v", file, err)
	}
	return nil
}
