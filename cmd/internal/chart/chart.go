// Package chart draws series of points over two axes as SVG. It knows numbers and words and
// no engine; chart/plain plots the same in characters for a terminal. Its rooms draw other
// pictures; chart/draw has what all of them are drawn with.
//
// A picture carries its meaning in words, dashes and shapes first; colour only
// repeats it, so it can be read printed in black and white. It has a title and a
// description for those who listen to it, scales to whatever width it is given,
// takes the fonts that are there, and turns dark where the reader's screen is.
// Names from outside are written as text, whatever they hold.
//
// References, by their keys in DEVELOPERS.md: WCAG22.
package chart

import (
	"errors"
	"fmt"
	"slices"

	"evendrop/cmd/internal/chart/draw"
)

// Chart is series of points over two axes.
type Chart struct {
	Title       string
	Description string // what the picture shows, for those who do not see it
	X, Y        Axis
	Series      []Series
	Upright     []Band // intervals of X, drawn from top to bottom
	Level       []Band // intervals of Y, drawn from side to side: limits
	Lanes       []Lane // intervals of X with words, one below another under the plot
	Wide        bool   // twice as wide, for what is crowded
}

// Axis is one direction of a chart.
type Axis struct {
	Label string // what is counted, with its unit
	// From and To are the ends. Both zero: as wide as what is drawn needs.
	From, To float64
	Angle    bool // degrees: ticks divide a turn
	Down     bool // of Y: values grow downward
	Bare     bool // without numbers
	// Named are values of X that have a name, under their number.
	Named []Named
}

// Named is a value with a name.
type Named struct {
	At   float64
	Name string
}

// Series is points that belong together: a line, or markers.
type Series struct {
	Name   string
	Line   bool // joined, in the order given
	Fine   bool // a thin line without dashes, for what is crowded
	With   int  // it has the ink and shape of the series so numbered, from 1; 0 for its own
	Points []Point
}

// Point is a place on a chart, with half-widths of its error bars; zero is none.
type Point struct {
	X, Y           float64
	XError, YError float64
	Doubtful       bool   // drawn hollow and crossed out
	Label          string // words beside it
	Above          bool   // the words stand above it
}

// Band is an interval between two values of an axis. One whose ends are the
// same is a line.
type Band struct {
	From, To float64
	Label    string
}

// check refuses what cannot be drawn: no points, and numbers that are none.
func (c Chart) check() error {
	points := 0
	for _, s := range c.Series {
		for _, p := range s.Points {
			points++
			if !draw.Finite(p.X, p.Y, p.XError, p.YError) {
				return fmt.Errorf("series %q: point (%g, %g) cannot be drawn", s.Name, p.X, p.Y)
			}
		}
	}
	for _, lane := range c.Lanes {
		if !draw.Finite(lane.From, lane.To, lane.Middle) {
			return fmt.Errorf("lane %q from %g to %g cannot be drawn", lane.label(), lane.From, lane.To)
		}
	}
	for _, b := range slices.Concat(c.Upright, c.Level) {
		if !draw.Finite(b.From, b.To) {
			return fmt.Errorf("band %q from %g to %g cannot be drawn", b.Label, b.From, b.To)
		}
	}
	if points == 0 {
		return errors.New("a chart needs at least one point")
	}
	return nil
}

// Scales are the two axes laid out. A chart that cannot be drawn is an error.
func (c Chart) Scales() (x, y Scale, err error) {
	if err := c.check(); err != nil {
		return x, y, err
	}
	x, y = c.scales()
	return x, y, nil
}

// scales are the two axes, wide enough for everything on the chart.
func (c Chart) scales() (x, y Scale) {
	var across, up extent
	for _, s := range c.Series {
		for _, p := range s.Points {
			across.take(p.X-p.XError, p.X+p.XError)
			up.take(p.Y-p.YError, p.Y+p.YError)
		}
	}
	for _, b := range c.Upright {
		across.take(b.From, b.To)
	}
	for _, lane := range c.Lanes {
		across.take(lane.From, lane.To, lane.Middle)
	}
	for _, b := range c.Level {
		up.take(b.From, b.To)
	}
	if len(c.Level) > 0 { // room for their labels
		room := (up.high - up.low) / 12
		up.take(up.low-room, up.high+room)
	}
	return newScale(c.X, across), newScale(c.Y, up)
}
