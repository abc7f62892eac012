// Command measure measures evendrop: how honest its answers are, how fast they come, how
// large it is, and how both grow, each figure beside what it is held to (the README's
// promises and DEVELOPERS.md, Measured).
//
//	go run ./cmd/measure                every part, some 7 minutes on two quiet cores
//	go run ./cmd/measure speed growth   those parts
//
// Simulations run with fewer jobs a point than the tables of testdata/honesty: each figure
// says how many, and one that misses its aim by no more than chance makes of so many jobs
// says that. Times are the least of many, and of a process its time on the processor too: a
// busy machine makes only the first longer. Exit 1 when something could not be measured.
package main

import (
	"fmt"
	"maps"
	"os"
	"runtime"
	"slices"
	"strings"
	"time"
)

// part is measurements that are chosen together.
type part struct {
	name    string
	measure func(s scratch, tell say) error
}

// say puts a figure into the table, as soon as it is there.
type say func(f figure)

// parts are all of them: what needs a quiet machine first.
var parts = []part{
	{"core", core}, {"speed", speed}, {"page", page}, {"growth", growth}, {"sizes", sizes},
	{"honesty", simulated(stated, unstated)}, {"slips", simulated(slips)}, {"joints", simulated(joints)}, {"lobes", simulated(lobes)},
	{"numbers", numbers}, {"files", files}, {"tests", tests},
}

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
}

// run measures the parts that are named, or all.
func run(names []string) error {
	chosen, err := choose(names)
	if err != nil {
		return err
	}
	s, err := newScratch()
	if err != nil {
		return err
	}
	defer s.remove()
	began := time.Now()
	fmt.Printf("Measured on %s, %d cores, %s\n\n", began.Format("2006-01-02 15:04"), runtime.NumCPU(), runtime.Version())
	fmt.Print(head())
	var failed []string
	for _, p := range chosen {
		if err := p.measure(s, func(f figure) { fmt.Print(f.row(p.name)) }); err != nil {
			failed = append(failed, fmt.Sprintf("%s: %v", p.name, err))
		}
	}
	fmt.Printf("\n%.0f s in all\n", time.Since(began).Seconds())
	if len(failed) > 0 {
		return fmt.Errorf("not measured:\n%s", strings.Join(failed, "\n"))
	}
	return nil
}

// choose is the parts of these names, all where there are none.
func choose(names []string) ([]part, error) {
	if len(names) == 0 {
		return parts, nil
	}
	known := map[string]part{}
	for _, p := range parts {
		known[p.name] = p
	}
	var list []part
	for _, name := range names {
		p, ok := known[name]
		if !ok {
			return nil, fmt.Errorf("there is no part %q: the parts are %s", name, strings.Join(slices.Sorted(maps.Keys(known)), ", "))
		}
		list = append(list, p)
	}
	return list, nil
}
