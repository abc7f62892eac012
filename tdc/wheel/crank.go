package wheel

import (
	"math"

	"evendrop/geometry"
)

// crank finds the leading edges of the crank wheel's teeth, and its good turns.
// Where the wheel fits both ways of crossing, a square signal leads with the edge
// that ends the gap, and a coil's passes nought at a tooth the steep way.
func (t Trace) crank(w Wheel, asked Way) (Way, turns, error) {
	c := t.edges[0]
	column := t.column(0) + 1
	if most := max(len(c.rising), len(c.falling)); most <= w.Teeth() {
		return "", turns{}, faultf("column %d has %d teeth in all, and a turn of %s has %d: capture two turns or more, or choose another column with --crank",
			column, most, w.Name, w.Teeth())
	}
	rising, falling := findTurns(c.rising, w), findTurns(c.falling, w)
	if other := t.otherwise(w); other != "" && rising.used+falling.used > 0 {
		return "", rising, faultf("column %d shows the wheel %s, and --wheel says %s: if the signal is right, type --wheel %s", column, other, w.Name, other)
	}
	if asked != "" {
		return t.asked(asked, rising, falling, w)
	}
	leads := Falling
	switch {
	case rising.used == 0 && falling.used == 0:
		return "", rising, t.mismatch(w)
	case rising.used > 2*falling.used:
		leads = Rising
	case falling.used > 2*rising.used:
	case t.channels[0].kind == Inductive:
		leads = steepWay(c)
	default:
		votes := endsGap(rising, c.falling, w)
		if votes > 0 || votes == 0 && repeat(rising, w) < repeat(falling, w) {
			leads = Rising
		}
	}
	if leads == Rising {
		return leads, rising, nil
	}
	return leads, falling, nil
}

// asked takes the way that the user insists on, if teeth pass that way.
func (t Trace) asked(way Way, rising, falling turns, w Wheel) (Way, turns, error) {
	c := t.edges[0]
	found, took, otherTook := rising, c.risingTook, c.fallingTook
	if way == Falling {
		found, took, otherTook = falling, c.fallingTook, c.risingTook
	}
	switch {
	case t.channels[0].kind == Inductive && median(took.kept) > slower*median(otherTook.kept):
		return "", found, faultf("the coil's signal in column %d goes slowly through nought on its %s side, between teeth, and fast at a tooth on the other: "+
			"leave --crank-edge out", t.column(0)+1, way)
	case found.used == 0:
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
func endsGap(found turns, others []float64, w Wheel) int {
	n := w.Teeth()
	least := w.Pitch() * geometry.Angle(math.Sqrt(w.contrast()))
	votes, k := 0, 0
	for _, r := range found.runs {
		for i := 1; i < len(r.times); i++ {
			if w.Intervals[(i-1)%n] < least {
				continue
			}
			from, to := r.times[i-1], r.times[i]
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
