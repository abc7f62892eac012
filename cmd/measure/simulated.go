package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"

	"evendrop/tdc/benchtest"
)

// suite is tests that simulate jobs and print a table, and what is asked of that.
type suite struct {
	pkg, run string
	args     []string // for fewer jobs
	columns  int      // of the table, behind the points' names; 0: it prints sentences
	asks     []ask
}

// ask is one figure of a table, in %: the worst among its rows by their own aims, or their
// mean; or of sentences, the worst that a pattern finds.
type ask struct {
	what   string
	rows   string // pattern of their names, or of the sentences
	column int
	aim    aim
	own    bool // each row's aim stands in the next column, the least it may be
	mean   bool // and not the worst
	unit   unit
}

// unit is what a figure is given in.
type unit string

const (
	percent unit = " %"
	degrees unit = " deg"
	ratio   unit = ""
)

// simulated runs suites one after another.
func simulated(all ...func() []suite) func(scratch, say) error {
	return func(_ scratch, tell say) error {
		for _, suites := range all {
			for _, s := range suites() {
				if err := s.measure(tell); err != nil {
					return err
				}
			}
		}
		return nil
	}
}

// measure runs a suite.
func (s suite) measure(tell say) error {
	text, err := goTest(s.pkg, s.run, append([]string{"-args"}, s.args...)...)
	if err != nil {
		return err
	}
	for _, a := range s.asks {
		f, err := s.answer(a, text)
		if err != nil {
			return fmt.Errorf("%s: %w", a.what, err)
		}
		tell(f)
	}
	return nil
}

// answer is what its tests printed in answer to a question.
func (s suite) answer(a ask, text string) (figure, error) {
	if s.columns == 0 {
		return a.sentences(text)
	}
	return a.table(text, readTable(text, s.columns))
}

// table is what a table says to a question.
func (a ask) table(text string, all tabled) (f figure, err error) {
	jobs, err := jobsOf(text)
	if err != nil {
		return f, err
	}
	rows := a.asked(all.of(a.rows))
	if len(rows) == 0 {
		return f, fmt.Errorf("no row of %q in:\n%s", a.rows, text)
	}
	if a.mean {
		x := rows.mean(a.column)
		return a.figure(x, a.aim, jobs*len(rows), fmt.Sprintf("mean of %d points, %d jobs each", len(rows), jobs)), nil
	}
	name, x, of := rows.worst(a.column, func(i int) aim {
		if a.own {
			return atLeast(rows[i].number[a.column+1])
		}
		return a.aim
	})
	f = a.figure(x, of, jobs, fmt.Sprintf("%s, the worst of %d points, %d jobs each", name, len(rows), jobs))
	return f, nil
}

// asked is the rows that have an aim of their own, where that is what they are held to.
func (a ask) asked(all tabled) (list tabled) {
	for _, r := range all {
		if !a.own || !math.IsNaN(r.number[a.column+1]) {
			list = append(list, r)
		}
	}
	return list
}

var jobsSaid = regexp.MustCompile(`(\d+) jobs`)

// sentences is what sentences say to a question, the worst of several.
func (a ask) sentences(text string) (f figure, err error) {
	said := regexp.MustCompile(a.rows).FindAllStringSubmatch(text, -1)
	jobs := jobsSaid.FindStringSubmatch(text)
	if said == nil || jobs == nil {
		return f, fmt.Errorf("nothing like %q in:\n%s", a.rows, text)
	}
	n, _ := strconv.Atoi(jobs[1])
	for i, m := range said {
		x, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			return f, err
		}
		if g := a.figure(x, a.aim, n, fmt.Sprintf("the worst of %d, %d jobs each", len(said), n)); i == 0 || a.aim.past(x) > a.aim.past(f.value) {
			f = g
		}
	}
	return f, nil
}

// figure is a value of so many jobs, with what chance may make of it.
func (a ask) figure(x float64, of aim, jobs int, beside string) figure {
	f := figure{what: a.what, aim: of, value: x, shown: fmt.Sprintf("%s%s (%s)", digits(x), a.unit, beside)}
	end := of.high
	if math.IsInf(end, 1) || x < of.low {
		end = of.low
	}
	switch a.unit {
	case percent:
		f.chance = 100 * benchtest.Chance(end/100, jobs)
	case ratio: // of a deviation that so many jobs make
		f.chance = 3 * end / math.Sqrt(2*float64(jobs))
	}
	return f
}
