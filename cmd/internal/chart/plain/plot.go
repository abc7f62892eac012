// Package plain plots a chart in plain characters, for a terminal.
package plain

import (
	"fmt"
	"math"
	"strings"

	"evendrop/cmd/internal/chart"
)

// Plot is a chart width columns wide and with height rows of plot. One series is drawn
// in strokes, several each in a letter; lanes and named values are left out. Numbers that
// are none are an error, and so is a width with no room.
func Plot(c chart.Chart, width, height int) (string, error) {
	x, y, err := c.Scales()
	if err != nil {
		return "", err
	}
	margin := 0
	for _, t := range y.Ticks {
		margin = max(margin, len(y.Label(t)))
	}
	columns := width - margin - 3
	if columns < 10 || height < 4 {
		return "", fmt.Errorf("a plot needs more room than %d columns by %d rows", width, height)
	}
	s := screen{Chart: c, x: x, y: y, columns: columns, rows: height, margin: margin}
	s.clear()
	s.bands()
	for n := range c.Series {
		s.series(n)
	}
	return s.printed(width), nil
}

// screen is a plot in characters under way.
type screen struct {
	chart.Chart
	x, y                  chart.Scale
	columns, rows, margin int
	cells                 [][]rune
	touched               [][]int // which series drew a cell, from 1
}

func (s *screen) clear() {
	for range s.rows {
		s.cells = append(s.cells, []rune(strings.Repeat(" ", s.columns)))
		s.touched = append(s.touched, make([]int, s.columns))
	}
}

// column and row are where a value falls, with the part of the cell.
func (s *screen) column(value float64) float64 { return s.x.At(value) * float64(s.columns-1) }

func (s *screen) row(value float64) float64 {
	up := s.y.At(value)
	if !s.Y.Down {
		up = 1 - up
	}
	return up * float64(s.rows-1)
}

func (s *screen) inside(column, row int) bool {
	return column >= 0 && column < s.columns && row >= 0 && row < s.rows
}

// bands shades intervals: of X with colons, of Y with equals signs at the ends.
func (s *screen) bands() {
	for _, b := range s.Upright {
		from, to := math.Round(s.column(math.Min(b.From, b.To))), math.Round(s.column(math.Max(b.From, b.To)))
		for column := int(from); column <= int(to); column++ {
			for row := range s.rows {
				s.put(column, row, ':')
			}
		}
	}
	for _, b := range s.Level {
		for _, end := range []float64{b.From, b.To} {
			for column := range s.columns {
				s.put(column, int(math.Round(s.row(end))), '=')
			}
		}
	}
}

func (s *screen) put(column, row int, mark rune) {
	if s.inside(column, row) {
		s.cells[row][column] = mark
	}
}

// series draws one series: its line column by column, or its points.
func (s *screen) series(n int) {
	points := s.Series[n].Points
	if s.Series[n].Line {
		for i := 1; i < len(points); i++ {
			s.segment(n, points[i-1], points[i])
		}
		return
	}
	for _, p := range points {
		mark := s.letter(n)
		if p.Doubtful {
			mark = '?'
		}
		s.touch(n, int(math.Round(s.column(p.X))), int(math.Round(s.row(p.Y))), mark)
	}
}

// segment draws a line between two points, a character in each column it passes
// or, where it is steep, in each row.
func (s *screen) segment(n int, from, to chart.Point) {
	c0, r0, c1, r1 := s.column(from.X), s.row(from.Y), s.column(to.X), s.row(to.Y)
	steep := math.Abs(r1-r0) > 1.5*math.Abs(c1-c0)
	if steep {
		for row := math.Ceil(math.Min(r0, r1)); row <= math.Max(r0, r1); row++ {
			column := c0 + (c1-c0)*(row-r0)/(r1-r0)
			s.touch(n, int(math.Round(column)), int(row), s.stroke(n, '|'))
		}
		return
	}
	for column := math.Ceil(math.Min(c0, c1)); column <= math.Max(c0, c1) && c0 != c1; column++ {
		row := r0 + (r1-r0)*(column-c0)/(c1-c0)
		whole := math.Round(row)
		s.touch(n, int(column), int(whole), s.stroke(n, thirds(row-whole)))
	}
}

// thirds is a stroke in the upper, the middle or the lower part of a cell.
func thirds(part float64) rune {
	switch {
	case part < -1.0/6:
		return '\''
	case part > 1.0/6:
		return '.'
	}
	return '-'
}

// stroke is the character that a line is drawn with.
func (s *screen) stroke(n int, alone rune) rune {
	if len(s.Series) == 1 {
		return alone
	}
	return s.letter(n)
}

// letter is the name of a series on the plot.
func (s *screen) letter(n int) rune {
	if len(s.Series) == 1 {
		return 'o'
	}
	return 'A' + rune(n%26)
}

// together stands where several series meet.
const together = '*'

// touch draws a cell for a series.
func (s *screen) touch(n, column, row int, mark rune) {
	if !s.inside(column, row) {
		return
	}
	if by := s.touched[row][column]; by != 0 && by != n+1 {
		mark = together
	}
	s.touched[row][column] = n + 1
	s.cells[row][column] = mark
}
