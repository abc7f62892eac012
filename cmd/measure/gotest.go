package main

import (
	"fmt"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
)

// goTest is what tests of a package print; that some fail is no error, as long as they ran.
func goTest(pkg, run string, args ...string) (string, error) {
	all := append([]string{"test", pkg, "-run", run, "-count", "1", "-v", "-timeout", "30m"}, args...)
	out, err := exec.Command("go", all...).CombinedOutput()
	if err != nil && !strings.Contains(string(out), "--- ") {
		return "", fmt.Errorf("go %s: %w\n%s", strings.Join(all, " "), err, out)
	}
	return string(out), nil
}

// benched is a benchmark's best of several runs.
type benched struct{ ns, allocs float64 }

func (b benched) ms() float64 { return b.ns / 1e6 }

var benchLine = regexp.MustCompile(`(?m)^Benchmark(\S+?)(?:-\d+)?\s+\d+\s+([\d.]+) ns/op(?:.*?\s(\d+) allocs/op)?`)

// goBench runs benchmarks of a package, so many rounds of so many each, and is each one's best
// by its name: where other work disturbs, many short rounds have one that it did not.
func goBench(pkg, pattern string, rounds, of int) (map[string]benched, error) {
	all := []string{"test", pkg, "-run", "^$", "-bench", pattern, "-benchmem", "-cpu", "1", "-count", fmt.Sprint(rounds), "-benchtime", fmt.Sprintf("%dx", of)}
	out, err := exec.Command("go", all...).CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w\n%s", strings.Join(all, " "), err, out)
	}
	best := map[string]benched{}
	for _, m := range benchLine.FindAllStringSubmatch(string(out), -1) {
		ns, _ := strconv.ParseFloat(m[2], 64)
		allocs, _ := strconv.ParseFloat(m[3], 64)
		if was, ok := best[m[1]]; !ok || ns < was.ns {
			best[m[1]] = benched{ns, allocs}
		}
	}
	return best, nil
}
