// Package signal tells when a sensor's signal crosses its middle: what its levels
// are, how it looks, and what of its crossings is noise or bounce. It is fed sample
// by sample, and keeps a number an edge.
package signal

import "math"

// Way is the way a signal goes through its middle.
type Way string

// The two ways.
const (
	Rising  Way = "rising"
	Falling Way = "falling"
)

// Crossings are when a channel goes through its middle, s, and how long it takes
// from one threshold to the other, of some.
type Crossings struct {
	Rising, Falling         []float64
	RisingTook, FallingTook Sketch
}

// Way is one way's crossings.
func (c *Crossings) Way(w Way) []float64 {
	if w == Rising {
		return c.Rising
	}
	return c.Falling
}

// Steep is the way that takes less time from threshold to threshold.
func (c *Crossings) Steep() Way {
	if Median(c.RisingTook.Kept) < Median(c.FallingTook.Kept) {
		return Rising
	}
	return Falling
}

// Timer finds when a channel crosses its middle.
type Timer interface {
	Take(t, v float64)
	Done() (found Crossings, bounce int)
}

// Room is how many crossings may still be kept.
type Room struct{ Left int }

// Parts of a signal's swing to either side of its middle that it has to pass
// before a crossing counts: more than noise and hum, less than the least tooth.
const (
	squareBand    = 0.2  // of low to high
	inductiveBand = 0.3  // of base to peak, which is followed
	quietBand     = 0.06 // of base to the greatest peak, when nothing passed for long
)

// quiet is how many tooth intervals without a tooth count as long; the longest
// gap of the usual wheels is four.
const quiet = 8

// follow is how far an estimate of level moves to what the last tooth showed.
const follow = 0.15

// widestHole is the most steps between two samples over which a crossing is
// still timed. One that falls in a wider hole is lost, and its turn with it.
const widestHole = 5

// detector finds crossings by two thresholds about a middle. The signal has to
// have been past one to be timed on its way past the other; what it does between
// is noise, and the time is half-way from the first to the last passage of the
// middle, which noise moves neither way.
type detector struct {
	Levels
	out  Crossings
	room *Room
	hole float64 // s

	middle, band float64
	up           bool // past the upper threshold last
	settled      bool // past either threshold yet

	before, then float64 // last sample and its time
	started      bool
	first, last  float64 // passages of the middle since a threshold was left
	pending      bool
	lost         bool    // a hole lies between
	left         float64 // when the threshold was left

	sum, count float64 // of samples past the threshold, or of all since the last fall
	peak       float64 // since the last crossing
	high, low  float64 // levels, followed
	wait       float64 // how long the last tooth took, s
	crossed    float64 // when the last tooth was
}

// NewDetector times a channel that was sampled every so many seconds.
func NewDetector(l Levels, step float64, kept *Room) Timer {
	d := &detector{Levels: l, room: kept, hole: widestHole * step, high: l.high, low: l.low, wait: math.Inf(1)}
	if l.Kind == Square {
		d.setSquare()
	} else {
		d.middle, d.band = l.mean, quietBand*l.swing
	}
	return d
}

func (d *detector) setSquare() {
	d.middle, d.band = (d.high+d.low)/2, squareBand*(d.high-d.low)
}

// Take takes the next sample.
func (d *detector) Take(t, v float64) {
	if v != v {
		return
	}
	if v > d.Most || v < d.Least {
		v = d.Within(v)
	}
	if d.started {
		if t-d.then > d.hole {
			d.lost = true
		}
		if (d.before < d.middle) != (v < d.middle) {
			d.pass(d.then + (t-d.then)*(d.middle-d.before)/(v-d.before))
		}
	}
	switch {
	case v > d.middle+d.band:
		if !d.up || !d.settled {
			d.turn(t, true)
		}
		d.stay(t)
	case v < d.middle-d.band:
		if d.up || !d.settled {
			d.turn(t, false)
		}
		d.stay(t)
	}
	d.gather(t, v)
	d.before, d.then, d.started = v, t, true
}

func (d *detector) Done() (Crossings, int) { return d.out, 0 }

// pass notes a passage of the middle.
func (d *detector) pass(t float64) {
	if !d.pending {
		d.first, d.pending = t, true
	}
	d.last = t
}

// stay notes a sample past a threshold.
func (d *detector) stay(t float64) { d.left, d.pending, d.lost = t, false, false }

// turn is the signal past the other threshold: a crossing.
func (d *detector) turn(t float64, up bool) {
	if d.settled && d.pending && !d.lost {
		at := (d.first + d.last) / 2
		d.room.Left--
		if up {
			d.out.Rising = append(d.out.Rising, at)
			d.out.RisingTook.Take(t - d.left)
		} else {
			d.out.Falling = append(d.out.Falling, at)
			d.out.FallingTook.Take(t - d.left)
		}
	}
	if d.Kind == Square {
		d.followSquare()
	} else {
		d.followInductive(t, up)
	}
	d.up, d.settled = up, true
}

// gather keeps what following the levels needs.
func (d *detector) gather(t, v float64) {
	if d.Kind == Square {
		if math.Abs(v-d.middle) > d.band {
			d.sum += v
			d.count++
		}
		return
	}
	d.sum += v
	d.count++
	d.peak = math.Max(d.peak, math.Abs(v-d.middle))
	if t-d.crossed > quiet*d.wait {
		d.band, d.peak, d.crossed = quietBand*d.swing, 0, t
	}
}

// followSquare moves the level that the signal has just left to its mean there.
func (d *detector) followSquare() {
	if d.count > 0 && d.settled {
		level := &d.low
		if d.up {
			level = &d.high
		}
		*level += follow * (d.sum/d.count - *level)
		d.setSquare()
	}
	d.sum, d.count = 0, 0
}

// followInductive moves the base to the signal's mean from tooth to tooth, which
// is zero for a coil since the flux is the same again, and the band with the
// peaks, which grow with speed.
func (d *detector) followInductive(t float64, up bool) {
	if !d.settled {
		d.sum, d.count, d.crossed = 0, 0, t
		return
	}
	band := inductiveBand * math.Min(d.peak, d.swing)
	d.band = math.Max(quietBand*d.swing, d.band+2*follow*(band-d.band))
	d.peak = 0
	if up {
		return
	}
	if d.count > 0 && !math.IsInf(d.wait, 1) {
		d.middle += follow * (d.sum/d.count - d.middle)
	}
	d.wait, d.crossed = t-d.crossed, t
	d.sum, d.count = 0, 0
}
