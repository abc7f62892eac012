package main

import (
	"fmt"
	"math"
	"strconv"

	"evendrop/cmd/internal/answer/edges"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/wheel"
)

// append has the edges and where the gap stands written to the end of a job, and says
// so.
func (c *edgesCommand) append(answer edges.Edges, files *job.Together) (string, error) {
	j, err := job.Open(c.into)
	if err != nil {
		return "", err
	}
	w := answer.Result.Wheel
	if own, err := wheel.Parse(j.Drive.CrankWheel); err == nil && !own.Alike(w) {
		return "", misuse("--wheel %s: %s says crank_wheel = %q: correct the one or the other", w.Name, c.into, j.Drive.CrankWheel)
	}
	if !answer.Result.PartsTold {
		return "", fmt.Errorf("%s: the crank wheel has %d equal parts and nothing tells which is which, so nothing was written: capture the cams too", c.into, w.Parts())
	}
	if *c.tooth > 0 {
		if answer.Gap, err = c.gap(w, j.Setup.Protractor); err != nil {
			return "", err
		}
	}
	tables, marks := answer.Marks()
	if marks == 0 {
		return "", fmt.Errorf("%s: no edge has a shift with an uncertainty, so nothing was written: capture more turns, ten at least", c.into)
	}
	if err := files.Append(c.into, tables); err != nil {
		return "", err
	}
	added := fmt.Sprintf("%d marks were", marks)
	if marks == 1 {
		added = "one mark was"
	}
	text := fmt.Sprintf("%s: %s added at the end.", c.into, added)
	if *c.tooth == 0 {
		text += " A capture does not show TDC: for where the gap stands from it, add --tooth N --at ANGLE."
	}
	return text, nil
}

// gap is where the first tooth after the gap was at the sensor: as it was typed
// where that tooth was read, and else as many degrees before as the tooth comes
// after it.
func (c *edgesCommand) gap(w wheel.Wheel, protractor evidence.Protractor) (*edges.Gap, error) {
	if !c.hasTooth(w) {
		return nil, c.noTooth(w)
	}
	after := w.Angle(float64(*c.tooth - 1))
	gap := &edges.Gap{Tooth: *c.tooth, Typed: c.at, After: after}
	for _, text := range c.at {
		written, err := job.ParseAngle(text)
		if err != nil {
			return nil, misuse("--at %v", err)
		}
		read, err := protractor.Crank(written)
		if err != nil {
			return nil, misuse("--at %v", err)
		}
		if *c.tooth == 1 {
			gap.Reads = append(gap.Reads, text)
		} else {
			gap.Reads = append(gap.Reads, beforeOrAfter(read-after))
		}
	}
	return gap, nil
}

// beforeOrAfter writes a crank angle from the protractor's zero so that a scale
// of any kind has it: as degrees BTDC or ATDC.
func beforeOrAfter(a geometry.Angle) string {
	degrees := a.Signed().Degrees()
	side := " ATDC"
	if degrees < 0 {
		side = " BTDC"
	}
	return strconv.FormatFloat(math.Round(math.Abs(degrees)*1e4)/1e4, 'f', -1, 64) + side
}
