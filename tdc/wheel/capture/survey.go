// Package capture reads a capture of crank and cam signals, a scope's or a logic
// analyser's: any separator, decimal point or comma, header and unit of time. It is
// read twice from its start: Look learns its layout and the levels of its signals,
// Time finds when they cross their middles. What is kept between is a number an
// edge, not a number a sample. The package opens no file.
package capture

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
)

// Survey is what a first reading of a capture tells: how it is written, and the
// levels of its signals.
type Survey struct {
	Request  Request
	layout   layout
	Channels []signal.Levels // crank first
	rows     int
	start    float64 // time of the first row, s
	Step     float64 // mean time from row to row, s
	even     bool    // the time column is rounded: rows are taken as evenly spaced
	Changes  bool    // a row comes when a signal changes: its time is an edge
	Notes    []finding.Finding
}

// mostCams is more cam signals than an engine has.
const mostCams = 16

// Look reads a capture for the first time. An error says what keeps it from being one.
func Look(r io.Reader, q Request) (Survey, error) {
	if len(q.Cams) > mostCams {
		return Survey{}, fault.Errorf("%d cam columns: expected %d at most", len(q.Cams), mostCams)
	}
	in := opened(r)
	head, err := in.Peek(headSize)
	if err != nil && !errors.Is(err, io.EOF) {
		return Survey{}, err
	}
	l, err := learn(head, q)
	if err != nil {
		return Survey{}, err
	}
	s := Survey{Request: q, layout: l}
	if err := s.setUnit(); err != nil {
		return s, err
	}
	return s, s.read(newRows(in, l, q.Time != ""))
}

// opened is a reader of lines that begins after a byte order mark.
func opened(r io.Reader) *bufio.Reader {
	in := bufio.NewReaderSize(r, longestLine)
	if mark, err := in.Peek(len(byteOrderMark)); err == nil && string(mark) == byteOrderMark {
		in.Discard(len(mark))
	}
	return in
}

// setUnit settles what time is counted in.
func (s *Survey) setUnit() error {
	q := &s.Request
	if q.Time == "" {
		q.Unit = Samples
	}
	if q.Unit == "" {
		q.Unit = s.layout.unit
	}
	if q.Unit == "" {
		q.Unit = Seconds
		s.Notes = append(s.Notes, finding.TimeUnitAssumed{})
	}
	if q.Unit == Samples && !(q.Rate > 0 && finite(q.Rate)) {
		return fault.Errorf("time is counted in samples, and nothing says how many there are a second").Or(fault.Rate)
	}
	return nil
}

// read goes through all rows.
func (s *Survey) read(r *rows) error {
	sketches, pairs := make([]signal.Sketch, 1+len(s.Request.Cams)), make([]signal.LevelPair, 1+len(s.Request.Cams))
	clock := stamps{}
	err := r.all(func(stamp float64, channels []float64) error {
		s.rows++
		if r.timed && !clock.take(stamp) {
			return (&fault.Fault{Line: r.line, Column: s.layout.columns[0] + 1, Problem: clock.goesBack(stamp)}).Or(fault.TimeColumn)
		}
		for i, v := range channels {
			sketches[i].Take(v)
			if s.layout.changes {
				pairs[i].Take(v)
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	if r.cut {
		s.Notes = append(s.Notes, finding.LastLineCut{})
	}
	s.Changes = s.layout.changes
	for i, k := range sketches {
		l, err := k.Levels(s.Column(i) + 1)
		if s.Changes && err == nil {
			l, err = pairs[i].Levels(s.Column(i) + 1)
		}
		if err != nil {
			return err
		}
		s.Channels = append(s.Channels, l)
	}
	return s.setClock(r.timed, clock)
}

// Column is a channel's column from 0.
func (s *Survey) Column(channel int) int {
	return s.layout.columns[channel+len(s.layout.columns)-1-len(s.Request.Cams)]
}

// Name is a channel's heading; "" when it has none.
func (s *Survey) Name(channel int) string {
	return strings.TrimSpace(s.layout.names[channel+len(s.layout.names)-1-len(s.Request.Cams)])
}

// setClock settles how a row's time is reckoned.
func (s *Survey) setClock(timed bool, clock stamps) error {
	unit := s.Request.Unit.seconds(s.Request.Rate)
	if !timed {
		s.even, s.Step = true, unit
		return nil
	}
	s.start = clock.first * unit
	if s.rows > 1 {
		s.Step = (clock.last - clock.first) * unit / float64(s.rows-1)
	}
	if !(s.Step > 0) || !finite(s.Step) {
		return fault.Errorf("column %d does not count time: it stays at %s", s.layout.columns[0]+1, geometry.Decimal(clock.first, 9)).Or(fault.TimeColumn)
	}
	if clock.repeats == 0 || s.Changes {
		return nil
	}
	s.even = true
	quantum := (clock.last - clock.first) / float64(s.rows-1-clock.repeats)
	if clock.widest > 3*quantum {
		return fault.Errorf("column %d repeats a time %d times for lack of digits, and has a hole of %s %s: export it with more digits",
			s.layout.columns[0]+1, clock.repeats, geometry.Decimal(clock.widest, 9), s.Request.Unit).Or(fault.Rate)
	}
	s.Notes = append(s.Notes, finding.TimesRounded{})
	return nil
}

// at is the time of a row, s; rows count from 0.
func (s *Survey) at(row int, stamp, unit float64) float64 {
	if s.even {
		return s.start + float64(row)*s.Step
	}
	return stamp * unit
}

// stamps watches over the time column.
type stamps struct {
	first, last, widest float64
	rows, repeats       int
}

// take is false when time goes back.
func (c *stamps) take(t float64) bool {
	if c.rows == 0 {
		c.first, c.last = t, t
	}
	step := t - c.last
	if step < 0 {
		return false
	}
	if step == 0 && c.rows > 0 {
		c.repeats++
	}
	c.widest = math.Max(c.widest, step)
	c.last = t
	c.rows++
	return true
}

func (c *stamps) goesBack(t float64) string {
	return fmt.Sprintf("time goes back from %s to %s: expected one capture a file", geometry.Decimal(c.last, 9), geometry.Decimal(t, 9))
}
