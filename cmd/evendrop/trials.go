package main

import (
	"fmt"
	"os"
	"time"

	"evendrop/tdc"
	"evendrop/tdc/adjust"
)

// The trials that are worth drawing: fewer do not tell a 95 % interval, more only
// take time.
const (
	fewestTrials = 1_000
	mostTrials   = 10_000_000
)

// drawTrials is the trials of every cylinder.
func drawTrials(results []tdc.Result, n int, seed uint64) ([]adjust.Trials, error) {
	if n < fewestTrials || n > mostTrials {
		return nil, misuse("--trials %d: from %d to %d, such as 100000", n, fewestTrials, mostTrials)
	}
	var all []adjust.Trials
	for _, r := range results {
		all = append(all, r.Trials(n, seed, progress(n)))
	}
	return all, nil
}

// progress tells on stderr how far the trials are, once a second from the first
// second on, when somebody is there to read it.
func progress(n int) func(done int) {
	info, err := os.Stderr.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	last, said := time.Now(), false
	return func(done int) {
		if time.Since(last) > time.Second {
			fmt.Fprintf(os.Stderr, "\r%d of %d trials", done, n)
			last, said = time.Now(), true
		}
		if said && done == n {
			fmt.Fprint(os.Stderr, "\r\033[K")
		}
	}
}
