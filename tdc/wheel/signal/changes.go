package signal

import (
	"math"

	"evendrop/tdc/wheel/fault"
)

// LevelPair is the two levels of a channel, or the finding that it has more.
type LevelPair struct {
	low, high float64
	seen      int
}

// Take takes the next sample.
func (p *LevelPair) Take(v float64) {
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

// Levels are the pair's; column is for messages. An error is of more levels than two, or
// fewer.
func (p LevelPair) Levels(column int) (Levels, error) {
	l := Levels{Kind: Square, low: p.low, high: p.high, mean: (p.low + p.high) / 2, swing: p.high - p.low, Least: p.low, Most: p.high}
	if p.seen != 2 {
		return l, fault.Errorf("rows come only when a level changes, as a logic analyser's do, and column %d has more levels than two. "+
			"Between such rows nothing is known of it. Export it as two levels, or as samples", column)
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
	room     *Room
}

// NewChanges times a channel of a list of changes of these levels.
func NewChanges(l Levels, kept *Room) Timer { return &changes{middle: l.mean, room: kept} }

func (c *changes) Take(t, v float64) {
	if v != v {
		return
	}
	high := v > c.middle
	if c.started && high != c.high {
		if len(c.times) == 0 {
			c.firstWay = WayTo(high)
		}
		c.times = append(c.times, t)
		c.room.Left--
	}
	c.high, c.started = high, true
}

// Done is the crossings without bounce, and how many changes were bounce.
func (c *changes) Done() (Crossings, int) {
	times := withoutBounce(c.times)
	var out Crossings
	for i, t := range times {
		if (i%2 == 0) == (c.firstWay == Rising) {
			out.Rising = append(out.Rising, t)
		} else {
			out.Falling = append(out.Falling, t)
		}
	}
	return out, len(c.times) - len(times)
}

// WayTo is the way to a level.
func WayTo(high bool) Way {
	if high {
		return Rising
	}
	return Falling
}
