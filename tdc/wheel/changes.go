package wheel

import (
	"math"
	"slices"
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
	return rows >= leastListed && float64(changing) >= leastChanging*float64(rows-1) && slices.Max(steps) > unevenly*median(steps)
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

// levelPair is the two levels of a channel, or the finding that it has more.
type levelPair struct {
	low, high float64
	seen      int
}

func (p *levelPair) take(v float64) {
	switch {
	case v != v || p.seen > 0 && v == p.low || p.seen > 1 && v == p.high:
	case p.seen == 0:
		p.low, p.seen = v, 1
	case p.seen == 1:
		p.low, p.high, p.seen = math.Min(p.low, v), math.Max(p.low, v), 2
	default:
		p.seen = 3
	}
}

// levels are the pair's; column is for messages.
func (p levelPair) levels(column int) (levels, error) {
	l := levels{kind: Square, low: p.low, high: p.high, mean: (p.low + p.high) / 2, swing: p.high - p.low, least: p.low, most: p.high}
	if p.seen != 2 {
		return l, faultf("rows come only when a level changes, as a logic analyser's do, and column %d has more levels than two: "+
			"between such rows nothing is known of it. Export it as two levels, or as samples", column)
	}
	return l, nil
}

// changes times a channel of a list of changes: its level holds until a row has
// the other, and that row's time is the edge.
type changes struct {
	middle   float64
	high     bool
	started  bool
	firstWay Way
	times    []float64
	room     *room
}

func (c *changes) take(t, v float64) {
	if v != v {
		return
	}
	high := v > c.middle
	if c.started && high != c.high {
		if len(c.times) == 0 {
			c.firstWay = wayTo(high)
		}
		c.times = append(c.times, t)
		c.room.left--
	}
	c.high, c.started = high, true
}

// done is the crossings without bounce, and how many changes were bounce.
func (c *changes) done() (crossings, int) {
	times := withoutBounce(c.times)
	var out crossings
	for i, t := range times {
		if (i%2 == 0) == (c.firstWay == Rising) {
			out.rising = append(out.rising, t)
		} else {
			out.falling = append(out.falling, t)
		}
	}
	return out, len(c.times) - len(times)
}

func wayTo(high bool) Way {
	if high {
		return Rising
	}
	return Falling
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
