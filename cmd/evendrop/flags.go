package main

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/answer/planning"
	"evendrop/cmd/internal/flags"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

// parse reads a command line, and prints the usage text when asked for it.
func (c console) parse(set *flags.Set, args []string) ([]string, error) {
	rest, err := set.Parse(args)
	if errors.Is(err, flags.ErrHelp) {
		fmt.Fprint(c.stdout, set.Usage())
	}
	return rest, err
}

// trustFlag adds the flag by which jobs may read files outside their own folders, and
// returns what opens a job as far as it is trusted.
func trustFlag(set *flags.Set) (open func(file string) (job.Job, error)) {
	paths := set.Bool("trust-paths", "let a job read files outside its own folder")
	return func(file string) (job.Job, error) {
		if *paths {
			return job.OpenTrusting(file)
		}
		return job.Open(file)
	}
}

// groundFlags adds the flags of plan and jot that say where a job's gauge can read, and
// returns where that is.
func groundFlags(set *flags.Set) func(job.Job) (plan.Ground, error) {
	oneWay := set.Bool("one-way", "never turn the crank back")
	deepest := set.JobLength("deepest", "as far down as the gauge reaches: 8 for a dial gauge, 25 for others")
	return func(j job.Job) (plan.Ground, error) {
		down, err := deepest(j.Unit)
		return planning.Ground(j, *oneWay, down), err
	}
}
