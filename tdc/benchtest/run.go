package benchtest

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// Run is how many jobs the tests of a package simulate, and of what.
type Run struct {
	Full bool   // every point there is
	Jobs int    // a point; 0: as the test has it
	Only string // pattern of the points' names
	Seed uint64
}

// Flags is a run that is asked for on the command line.
func Flags(set *flag.FlagSet) *Run {
	r := new(Run)
	set.BoolVar(&r.Full, "full", false, "honesty tests: every point, with as many jobs as a kept table has")
	set.IntVar(&r.Jobs, "jobs", 0, "jobs a point in the honesty tests; 0: as the test has it")
	set.StringVar(&r.Only, "only", "", "honesty tests: only points whose name matches this")
	set.Uint64Var(&r.Seed, "seed", 20240229, "seed of the honesty tests")
	return r
}

// Count is how many jobs a point has: those asked for, or the usual number of a quick
// or a full run.
func (r Run) Count(quick, full int) int {
	switch {
	case r.Jobs > 0:
		return r.Jobs
	case r.Full:
		return full
	}
	return quick
}

// Each runs jobs over the cores. Every job has a seed of its own: what it draws
// depends neither on the number of cores nor on the other jobs.
func (r Run) Each(stream, jobs int, job func(i int, rng *rand.Rand)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= jobs {
					return
				}
				job(i, rand.New(rand.NewPCG(r.Seed, uint64(stream)<<32|uint64(i))))
			}
		})
	}
	all.Wait()
}

// Chance is how far a share counted over so many jobs strays by chance: three
// standard deviations of the binomial. Of the many points looked at, one in four
// hundred would stray farther.
func Chance(share float64, jobs int) float64 {
	return 3 * math.Sqrt(share*(1-share)/float64(jobs))
}

// Head is what a table begins with: when, with which seed, how many jobs.
func (r Run) Head(what string, jobs int) string {
	return fmt.Sprintf("Simulated on %s (GOMAXPROCS %d, %s), seed %d, %d jobs a point\n%s\n",
		time.Now().Format(time.DateOnly), runtime.GOMAXPROCS(0), runtime.Version(), r.Seed, jobs, strings.TrimSpace(what))
}
