package main

import (
	"errors"
	"fmt"

	"evendrop/cmd/internal/answer/planning"
	"evendrop/cmd/internal/flags"
	"evendrop/geometry"
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

// trust is whether jobs may read files outside their own folders.
type trust struct{ paths *bool }

func newTrust(set *flags.Set) trust {
	return trust{set.Bool("trust-paths", "let a job read files outside its own folder")}
}

// open opens a job as far as it is trusted.
func (t trust) open(file string) (job.Job, error) {
	if *t.paths {
		return job.OpenTrusting(file)
	}
	return job.Open(file)
}

// groundFlags say where a job can be read: plan and jot have them.
type groundFlags struct {
	oneWay  *bool
	deepest func(unit string) (geometry.Length, error)
}

func newGroundFlags(set *flags.Set) groundFlags {
	return groundFlags{set.Bool("one-way", "never turn the crank back"), set.JobLength("deepest", "as far down as the gauge reaches: 8 for a dial gauge, 25 for others")}
}

// of is where a job's gauge can read.
func (f groundFlags) of(j job.Job) (plan.Ground, error) {
	deepest, err := f.deepest(j.Unit)
	return planning.Ground(j, *f.oneWay, deepest), err
}
