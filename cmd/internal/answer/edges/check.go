package edges

import (
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/mark"
	"evendrop/tdc/names"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/capture"
)

// Typed is a question as it was typed.
type Typed struct {
	Question // as far as it goes
	Files    []string
	Marks    bool // as entries of a job file
	Into     string
	Tooth    Tooth
}

// Tooth is where a tooth of the crank wheel was read.
type Tooth struct {
	Number int      // from 1, the first after the gap; 0 of none
	At     []string // what the job's protractor read with it at the sensor
}

// Completed refuses what cannot be asked, and completes the rest.
func (t Typed) Completed() (Question, error) {
	if err := t.check(); err != nil {
		return Question{}, err
	}
	q := t.Question
	q.file = t.Files[0]
	if t.Into == "" { // else the job says which members there are
		q.On = settled(q.On, mark.Drive{})
	}
	if err := completeTime(&q.Request); err != nil {
		return q, err
	}
	if err := checkColumns(q.Request); err != nil {
		return q, err
	}
	return q, t.checkTooth(q.Wheel)
}

// settled is members as a drive has them.
func settled(on []string, d mark.Drive) []string {
	var members []string
	for _, member := range on {
		members = append(members, names.Settled(member, d.Members()))
	}
	return members
}

func (t Typed) check() error {
	switch {
	case len(t.Files) != 1:
		return usage.Errorf("edges takes one capture, and was given %s: type for example evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2", words.Count(len(t.Files), "file"))
	case t.Files[0] == "-" || t.Against == "-":
		return usage.Errorf("edges reads a capture twice and cannot read it from a pipe: save it and name the file")
	case t.Request.Crank == "":
		return usage.Errorf("edges needs the crank signal's column: type for example --crank 2")
	case len(t.Request.Cams) == 0 && (t.Against != "" || t.Marks || t.Into != "" && t.Tooth.Number == 0):
		return usage.Errorf("--against, --marks and --into are about cam edges: name the cam signal's column, for example --cam 3")
	case len(t.On) > 0 && (!t.Marks && t.Into == "" || len(t.On) != len(t.Request.Cams)):
		return usage.Errorf("--on goes with --marks or --into, once for each --cam")
	}
	return nil
}

// checkTooth refuses a tooth without its angle, and one that the wheel lacks.
func (t Typed) checkTooth(w wheel.Wheel) error {
	n, at := t.Tooth.Number, t.Tooth.At
	switch {
	case n == 0 && len(at) == 0:
		return nil
	case n == 0 || len(at) == 0:
		return usage.Errorf("--tooth and --at go together: type for example --tooth 1 --at 282.5, the first tooth after the gap at the sensor")
	case t.Into == "":
		return usage.Errorf("--tooth goes with --into JOB.toml, whose protractor it was read on")
	case w.Teeth() > 0 && !t.Tooth.of(w):
		return t.Tooth.missing(w)
	}
	for _, text := range at {
		if _, err := measure.ParseAngle(text); err != nil {
			return usage.Errorf("--at %v", err)
		}
	}
	return nil
}

func (t Tooth) of(w wheel.Wheel) bool { return t.Number >= 1 && t.Number <= w.Teeth() }

func (t Tooth) missing(w wheel.Wheel) error {
	return usage.Errorf("--tooth %d: expected a tooth of the %s wheel, 1 to %d from the first after the gap", t.Number, w.Name, w.Teeth())
}

// completeTime completes how time is told: with a rate and no column, by the rows.
func completeTime(q *capture.Request) error {
	units := []capture.TimeUnit{"", capture.Seconds, capture.Milliseconds, capture.Microseconds, capture.Nanoseconds, capture.Samples}
	q.Unit = names.Settled(q.Unit, units)
	switch {
	case !slices.Contains(units, q.Unit):
		return usage.Errorf("--time-unit %s: expected s, ms, us, ns or samples", q.Unit)
	case q.Unit == capture.Samples && q.Rate == 0:
		return usage.Errorf("--time-unit samples needs the rate: type for example --rate 50000")
	case q.Time == "" && q.Rate > 0 && q.Unit != "" && q.Unit != capture.Samples:
		return usage.Errorf("--rate without --time counts rows: leave --time-unit %s out, or type --time 1", q.Unit)
	case q.Time == "" && q.Rate == 0:
		q.Time = "1"
	}
	return nil
}

// checkColumns refuses numbers that are no column, and one column twice.
func checkColumns(q capture.Request) error {
	all := append([]string{q.Crank}, q.Cams...)
	if q.Time != "" {
		all = append(all, q.Time)
	}
	for i, column := range all {
		if n, err := strconv.Atoi(column); (err == nil && (n < 1 || n > capture.MostColumns)) || strings.TrimSpace(column) == "" {
			return usage.Errorf("column %q: expected a number from 1, or a heading", column)
		}
		if slices.Contains(all[:i], column) {
			return usage.Errorf("column %s is given twice: time, crank and each cam have columns of their own", column)
		}
	}
	return nil
}
