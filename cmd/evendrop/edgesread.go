package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"evendrop/cmd/internal/answer/edges"
	"evendrop/tdc/job"
	"evendrop/tdc/wheel"
)

// measure reads a capture, twice.
func (c *edgesCommand) measure(file string) (wheel.Result, error) {
	var survey wheel.Survey
	var trace wheel.Trace
	var result wheel.Result
	err := c.reading(file, func(r io.Reader) (err error) {
		survey, err = wheel.Look(r, c.request)
		return err
	})
	if err == nil {
		err = c.reading(file, func(r io.Reader) (err error) {
			trace, err = wheel.Time(r, survey)
			return err
		})
	}
	if err == nil {
		result, err = wheel.Measure(trace, c.wheel, wheel.Way(*c.edge))
	}
	return result, inCapture(file, err)
}

// draw reads the capture once more for its picture.
func (c *edgesCommand) draw(answer edges.Edges) ([]byte, error) {
	var traces []wheel.Folded
	err := c.reading(answer.File, func(r io.Reader) (err error) {
		traces, err = answer.Result.Fold(r)
		return err
	})
	if err != nil {
		return nil, inCapture(answer.File, err)
	}
	return answer.Picture(traces)
}

// reading opens a file for the time of one reading.
func (c *edgesCommand) reading(file string, read func(io.Reader) error) error {
	f, err := job.OpenPlain(file, "not found: check the name of the capture")
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	r, done := c.told(f, info.Size())
	defer done()
	return read(r)
}

// compare reads the earlier capture and holds the answer against it.
func (c *edgesCommand) compare(answer *edges.Edges) error {
	measure := c.measure
	known := strings.EqualFold(filepath.Ext(c.against), ".toml")
	if known {
		measure = func(file string) (wheel.Result, error) { return knownEdges(file, answer.Result) }
	}
	before, err := measure(c.against)
	if err != nil {
		return err
	}
	comparison, err := wheel.Compare(before, answer.Result)
	if err != nil {
		return inCapture(c.against, err)
	}
	if known {
		comparison.Notes = append(comparison.Notes, "The known-good file does not tell speed or leads: compare at the speed and with the leads that it was made with.")
	}
	answer.Comparison = &comparison
	return nil
}

// inCapture names the file that an error is about, and the line.
func inCapture(file string, err error) error {
	fault, ok := errors.AsType[*wheel.Fault](err)
	_, named := errors.AsType[*job.Error](err)
	switch {
	case err == nil || named:
		return err
	case ok && fault.Line > 0 && fault.Column > 0:
		return fmt.Errorf("%s:%d: column %d: %s", file, fault.Line, fault.Column, fault.Problem)
	case ok && fault.Line > 0:
		return fmt.Errorf("%s:%d: %s", file, fault.Line, fault.Problem)
	}
	return fmt.Errorf("%s: %w", file, err)
}
