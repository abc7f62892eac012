package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"evendrop/tdc/job/jobtest"
)

var (
	mixedJobs = flag.Int("jobs", 300, "TestMixed: invented jobs to run through every command")
	mixedSeed = flag.Int("seed", 1, "TestMixed: the first job's seed; the next one's is one more")
)

// Invented jobs with evidence of every kind, alone and mixed, go through every command
// and every form of its answer. Nothing panics, no number is none, what is written is
// well formed, and all forms tell the same. A job that fails is left in a folder and
// runs alone with its seed: go test ./cmd/evendrop -run Mixed -args -seed N -jobs 1.
func TestMixed(t *testing.T) {
	jobs := *mixedJobs
	if testing.Short() {
		jobs = min(jobs, 60)
	}
	t.Logf("%d jobs from seed %d", jobs, *mixedSeed)
	schemas := map[string]schema{}
	for _, name := range []string{"find", "keep", "recheck", "plan", "halve", "convert", "motion"} {
		schemas[name] = openSchema(t, name)
	}
	var seen tally
	var next atomic.Int64
	var workers sync.WaitGroup
	root := t.TempDir()
	for range 4 * runtime.GOMAXPROCS(0) { // most of the time a job waits for the disk
		workers.Go(func() {
			for {
				n := int(next.Add(1)) - 1
				if n >= jobs {
					return
				}
				seed := *mixedSeed + n
				s := &benched{Job: jobtest.Jobs().Example(seed), seed: seed, dir: filepath.Join(root, fmt.Sprint(seed)), schemas: schemas, seen: &seen}
				s.run()
				if len(s.finds) > 0 {
					t.Errorf("seed %d: %s\n(files in %s)", seed, strings.Join(s.finds, "\n"), s.keep())
				}
				os.RemoveAll(s.dir)
			}
		})
	}
	workers.Wait()
	t.Log(seen.String())
}

// tally is how often what was met.
type tally struct {
	sync.Mutex
	count map[string]int
}

func (c *tally) add(what string) {
	c.Lock()
	defer c.Unlock()
	if c.count == nil {
		c.count = map[string]int{}
	}
	c.count[what]++
}

func (c *tally) String() string {
	var lines []string
	for what, n := range c.count {
		lines = append(lines, fmt.Sprintf("%7d %s", n, what))
	}
	slices.Sort(lines)
	return "met:\n" + strings.Join(lines, "\n")
}

// benched is one job at the bench.
type benched struct {
	jobtest.Job
	seed    int
	dir     string
	schemas map[string]schema
	seen    *tally
	finds   []string
}

func (s *benched) find(format string, args ...any) {
	s.finds = append(s.finds, fmt.Sprintf(format, args...))
}

// keep leaves the job's files where they outlive the test.
func (s *benched) keep() string {
	dir, err := os.MkdirTemp("", fmt.Sprintf("evendrop-job-%d-", s.seed))
	if err == nil {
		err = s.Write(dir)
	}
	if err != nil {
		return err.Error()
	}
	return dir
}

func (s *benched) path(name string) string { return filepath.Join(s.dir, name) }

// everyNth tells whether it is this job's turn for what takes long.
func (s *benched) everyNth(n int) bool { return s.seed%n == 0 }

// noNumber is what a sum or a format that went wrong prints, among letters part of a
// word; "" when there is none.
func noNumber(text string) string {
	for _, bad := range []string{"Inf", "NaN", "%!", "∞"} {
		if strings.Contains(text, bad) { // soon told, and seldom
			if found := noNumberAlone.FindString(text); found != "" {
				return found
			}
		}
	}
	return ""
}

var noNumberAlone = regexp.MustCompile(`(^|[^\pL])([+-]?Inf|NaN)($|[^\pL])|%!|∞`)

// ev is a command line. It finds a panic, a number that is none, a refusal that is not
// one line, and an answer beside a refusal.
func (s *benched) ev(args ...string) (code int, out, errs string) {
	defer func() {
		if r := recover(); r != nil {
			s.find("%v panics: %v\n%s", args, r, traced())
			code = failed
		}
	}()
	code, out, errs = ev(args...)
	if bad := noNumber(out + errs); bad != "" {
		s.find("%v says %q", args, bad)
	}
	refused := code != answered && code != notFine
	if refused && (out != "" || strings.Count(errs, "\n") != 1 || code == wrongUse) {
		s.find("%v ends with %d, %q and %q", args, code, out, errs)
	}
	return code, out, errs
}

// traced is where a panic came from.
func traced() string {
	stack := make([]byte, 1<<14)
	lines := strings.Split(string(stack[:runtime.Stack(stack, false)]), "\n")
	lines = slices.DeleteFunc(lines, func(l string) bool {
		return !strings.Contains(l, "/tdc/") && !strings.Contains(l, "/cmd/") && !strings.Contains(l, "/fit/")
	})
	return strings.Join(lines, "\n")
}

// run runs the job through the commands.
func (s *benched) run() {
	for _, kind := range s.Kinds {
		s.seen.add(kind)
	}
	if err := s.Write(s.dir); err != nil {
		s.find("%v", err)
		return
	}
	told, ok := s.found()
	if !ok {
		return
	}
	switch s.seed % 3 { // a third each, so that many jobs can be run
	case 0:
		s.forms(told, "find", s.path(jobtest.JobFile))
		s.planned()
		s.reckoned()
	case 1:
		s.drawn(told)
		s.halved()
	case 2:
		s.jotted(told)
		s.held()
	}
}
