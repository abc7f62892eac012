package timing

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/capture"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/teeth"
)

// signals are a capture's crossings, in which a wheel is looked for.
type signals struct{ capture.Trace }

// crank finds the leading edges of the crank wheel's teeth, and its good turns.
// Where the wheel fits both ways of crossing, a square signal leads with the edge
// that ends the gap, and a coil's passes zero at a tooth the steep way.
func (t signals) crank(w wheel.Wheel, asked signal.Way) (signal.Way, teeth.Turns, error) {
	c := t.Edges[0]
	column := t.Column(0) + 1
	if most := max(len(c.Rising), len(c.Falling)); most <= w.Teeth() {
		return "", teeth.Turns{}, fault.Errorf("column %d has %d teeth in all, and a turn of %s has %d",
			column, most, w.Name, w.Teeth()).Or(fault.MoreTurns).Or(fault.CrankColumn)
	}
	rising, falling := teeth.Find(c.Rising, w), teeth.Find(c.Falling, w)
	if other := t.otherwise(w); other != "" && rising.Used+falling.Used > 0 {
		return "", rising, fault.Errorf("column %d shows the wheel %s, and not %s", column, other, w.Name).OrWheel(other)
	}
	if asked != "" {
		return t.asked(asked, rising, falling, w)
	}
	leads := signal.Falling
	switch {
	case rising.Used == 0 && falling.Used == 0:
		return "", rising, t.mismatch(w)
	case rising.Used > 2*falling.Used:
		leads = signal.Rising
	case falling.Used > 2*rising.Used:
	case t.Channels[0].Kind == signal.Inductive:
		leads = c.Steep()
	default:
		votes := endsGap(rising, c.Falling, w)
		if votes > 0 || votes == 0 && teeth.Repeat(rising, w) < teeth.Repeat(falling, w) {
			leads = signal.Rising
		}
	}
	if leads == signal.Rising {
		return leads, rising, nil
	}
	return leads, falling, nil
}

// asked takes the way that the user insists on, if teeth pass that way.
func (t signals) asked(way signal.Way, rising, falling teeth.Turns, w wheel.Wheel) (signal.Way, teeth.Turns, error) {
	c := t.Edges[0]
	found, took, otherTook := rising, c.RisingTook, c.FallingTook
	if way == signal.Falling {
		found, took, otherTook = falling, c.FallingTook, c.RisingTook
	}
	switch {
	case t.Channels[0].Kind == signal.Inductive && signal.Median(took.Kept) > slower*signal.Median(otherTook.Kept):
		return "", found, fault.Errorf("the coil's signal in column %d goes slowly through zero on its %s side, between teeth, and fast at a tooth on the other",
			t.Column(0)+1, way).Or(fault.NoCrankEdge)
	case found.Used == 0:
		return "", found, t.mismatch(w)
	}
	return way, found, nil
}

// slower is the ratio above which one way of crossing is no tooth but the room
// between two.
const slower = 1.3

// endsGap is how many gaps more are for their greater part on the side that the
// edges of these turns end than are not: above 0 they lead. The others are the edges
// the other way. A signal may be high in one gap and low in another.
func endsGap(found teeth.Turns, others []float64, w wheel.Wheel) int {
	n := w.Teeth()
	least := w.Pitch() * geometry.Angle(math.Sqrt(w.Contrast()))
	votes, k := 0, 0
	for _, r := range found.Runs {
		for i := 1; i < len(r.Times); i++ {
			if w.Intervals[(i-1)%n] < least {
				continue
			}
			from, to := r.Times[i-1], r.Times[i]
			for k < len(others) && others[k] <= from {
				k++
			}
			if k < len(others) && others[k] < to {
				votes += map[bool]int{true: 1, false: -1}[others[k]-from < to-others[k]]
			}
		}
	}
	return votes
}
