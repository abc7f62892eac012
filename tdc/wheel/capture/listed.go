package capture

import (
	"math"
	"slices"

	"evendrop/tdc/wheel/signal"
)

// leastChanging is the part of the rows of a list of changes that tell of one;
// loggers add a row at the beginning, at the end, or now and then.
const leastChanging = 0.8

// unevenly is how many times as long as the median step the longest is where rows
// come when something changes: a gap of one tooth at least.
const unevenly = 1.4

// leastListed is how few rows do not tell what they are.
const leastListed = 8

// listsChanges says whether the rows of the head are a logger's list of changes:
// hardly a row without a change in some column of two levels, asked for or not,
// and times unevenly apart.
func (l layout) listsChanges(lines [][]byte) bool {
	var columns []twoLevels
	var steps []float64
	last, changing, rows := 0.0, 0, 0
	for _, line := range lines[l.header:] {
		cells := headings(withoutEnd(line), l.separator)
		if l.columns[0] >= len(cells) {
			continue
		}
		t, ok := cell([]byte(cells[l.columns[0]]), l.point)
		if !ok || !finite(t) {
			continue
		}
		if rows++; rows > 1 {
			steps = append(steps, t-last)
		}
		last = t
		if columns == nil {
			columns = make([]twoLevels, len(cells))
		}
		changed := false
		for i, text := range cells[:min(len(cells), len(columns))] {
			changed = columns[i].take(text) || changed
		}
		if changed {
			changing++
		}
	}
	return rows >= leastListed && float64(changing) >= leastChanging*float64(rows-1) && slices.Max(steps) > unevenly*signal.Median(steps)
}

// twoLevels is a column of which two texts were seen at most.
type twoLevels struct {
	texts []string
	now   string
}

// take says whether the column changed, among its two levels.
func (c *twoLevels) take(text string) bool {
	if !slices.Contains(c.texts, text) && len(c.texts) <= 2 {
		c.texts = append(c.texts, text)
	}
	changed := c.now != "" && c.now != text && len(c.texts) <= 2
	c.now = text
	return changed
}

// fineness is the step in which times were written, s: a power of ten.
type fineness struct{ places int }

// finestPlaces is as finely as any logger counts: picoseconds.
const finestPlaces = 12

func (f *fineness) take(t float64) {
	for f.places < finestPlaces {
		scaled := t * math.Pow10(f.places)
		if math.Abs(scaled-math.Round(scaled)) < 1e-3 {
			return
		}
		f.places++
	}
}

func (f fineness) step() float64 { return math.Pow10(-f.places) }
