package main

import (
	"github.com/spf13/pflag"

	"evendrop/tdc/job"
)

// trust is whether jobs may read files outside their own folders.
type trust struct{ paths *bool }

func newTrust(flags *pflag.FlagSet) trust { return trust{flags.Bool("trust-paths", false, "")} }

// open opens a job as far as it is trusted.
func (t trust) open(file string) (job.Job, error) {
	if *t.paths {
		return job.OpenTrusting(file)
	}
	return job.Open(file)
}
