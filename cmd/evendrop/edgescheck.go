package main

import (
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/job"
	"evendrop/tdc/wheel"
)

// check refuses a command line that cannot be carried out, and completes it.
func (c *edgesCommand) check(files []string) error {
	q := &c.request
	switch {
	case len(files) != 1:
		return misuse("edges takes one capture, and was given %d: type for example evendrop edges CAPTURE.csv --time 1 --crank 2 --cam 3 --wheel 60-2", len(files))
	case files[0] == "-" || c.against == "-":
		return misuse("edges reads a capture twice and cannot read it from a pipe: save it and name the file")
	case q.Crank == "":
		return misuse("edges needs the crank signal's column: type for example --crank 2")
	case len(q.Cams) == 0 && (c.against != "" || *c.marks || c.into != "" && *c.tooth == 0):
		return misuse("--against, --marks and --into are about cam edges: name the cam signal's column, for example --cam 3")
	case *c.marks && *c.as != "text":
		return misuse("--marks prints TOML: leave --as out")
	case *c.replace && *c.picture == "":
		return misuse("--replace goes with --picture FILE.svg")
	case len(c.on) > 0 && (!*c.marks && c.into == "" || len(c.on) != len(q.Cams)):
		return misuse("--on goes with --marks or --into, once for each --cam")
	}
	if err := c.checkPicture(); err != nil {
		return err
	}
	if err := c.checkTime(); err != nil {
		return err
	}
	if err := c.checkColumns(); err != nil {
		return err
	}
	return c.checkTooth()
}

// checkTooth refuses a tooth without its angle, and one that the wheel lacks.
func (c *edgesCommand) checkTooth() error {
	switch {
	case *c.tooth == 0 && len(c.at) == 0:
		return nil
	case *c.tooth == 0 || len(c.at) == 0:
		return misuse("--tooth and --at go together: type for example --tooth 1 --at 282.5, the first tooth after the gap at the sensor")
	case c.into == "":
		return misuse("--tooth goes with --into JOB.toml, whose protractor it was read on")
	case c.wheel.Teeth() > 0 && !c.hasTooth(c.wheel):
		return c.noTooth(c.wheel)
	}
	for _, text := range c.at {
		if _, err := job.ParseAngle(text); err != nil {
			return misuse("--at %v", err)
		}
	}
	return nil
}

func (c *edgesCommand) hasTooth(w wheel.Wheel) bool { return *c.tooth >= 1 && *c.tooth <= w.Teeth() }

// noTooth refuses a tooth that the wheel lacks.
func (c *edgesCommand) noTooth(w wheel.Wheel) error {
	return misuse("--tooth %d: expected a tooth of the %s wheel, 1 to %d from the first after the gap", *c.tooth, w.Name, w.Teeth())
}

// checkPicture refuses to read a long capture for a picture that must not be
// written.
func (c *edgesCommand) checkPicture() error {
	if *c.picture == "" {
		return nil
	}
	return job.MayWrite(*c.picture, *c.replace)
}

// checkTime completes how time is told: with a rate and no column, by the rows.
func (c *edgesCommand) checkTime() error {
	q := &c.request
	switch {
	case q.Unit == wheel.Samples && q.Rate == 0:
		return misuse("--time-unit samples needs the rate: type for example --rate 50000")
	case q.Time == "" && q.Rate > 0 && q.Unit != "" && q.Unit != wheel.Samples:
		return misuse("--rate without --time counts rows: leave --time-unit %s out, or type --time 1", q.Unit)
	case q.Time == "" && q.Rate == 0:
		q.Time = "1"
	}
	return nil
}

// checkColumns refuses numbers that are no column, and one column twice.
func (c *edgesCommand) checkColumns() error {
	q := c.request
	all := append([]string{q.Crank}, q.Cams...)
	if q.Time != "" {
		all = append(all, q.Time)
	}
	for i, column := range all {
		if n, err := strconv.Atoi(column); (err == nil && (n < 1 || n > wheel.MostColumns)) || strings.TrimSpace(column) == "" {
			return misuse("column %q: expected a number from 1, or a heading", column)
		}
		if slices.Contains(all[:i], column) {
			return misuse("column %s is given twice: time, crank and each cam have columns of their own", column)
		}
	}
	return nil
}
