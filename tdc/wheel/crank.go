package wheel

import (
	"fmt"
	"math"
	"slices"
	"strings"
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
	case endsGap(rising, c.falling, w):
		leads = Rising
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

// endsGap says whether a gap is for its greater part on the side that the edges
// of these turns end: whether they lead. The others are the edges the other way.
func endsGap(found turns, others []float64, w Wheel) bool {
	n := w.Teeth()
	votes, k := 0, 0
	for _, r := range found.runs {
		for i := n; i < len(r.times); i += n {
			from, to := r.times[i-1], r.times[i]
			for k < len(others) && others[k] <= from {
				k++
			}
			if k < len(others) && others[k] < to {
				votes += map[bool]int{true: 1, false: -1}[others[k]-from < to-others[k]]
			}
		}
	}
	return votes > 0
}

// mismatch says what wheel the crank signal shows instead.
func (t Trace) mismatch(w Wheel) error {
	c := t.edges[0]
	column := t.column(0) + 1
	best := ""
	for _, times := range [][]float64{c.falling, c.rising} {
		if seen := seenWheel(times); seen != "" && (best == "" || len(seen) < len(best)) {
			best = seen
		}
	}
	if best == "" {
		return faultf("column %d has %d teeth and no turn of %s among them: check --crank and --wheel, and that the engine turned evenly all the while",
			column, max(len(c.rising), len(c.falling)), w.Name)
	}
	return faultf("column %d shows no turn of %s: what comes again in it is %s: if that is the wheel, damaged or not, type --wheel %s", column, w.Name, best, best)
}

// mostlyAgain is the part of the gaps that have to come again: a turn in ten may
// be bad, and spoils two comparisons.
const mostlyAgain = 0.8

// mostLookedAt is how many edges are enough to see what comes again in them.
const mostLookedAt = 10 * mostTeeth

// seenWheel is the wheel that edges show, in the form that Parse takes; "" when
// nothing comes again in them.
func seenWheel(times []float64) string {
	steps := pitchesOf(times[:min(len(times), mostLookedAt)])
	for period := 2; period <= len(steps)/2 && period <= mostTeeth; period++ {
		if again(steps, period) < mostlyAgain {
			continue
		}
		one := common(steps, period)
		if slices.Max(one) == slices.Min(one) {
			continue
		}
		return written(fromGap(one))
	}
	return ""
}

// pitchesOf is each interval in whole pitches, the pitch being the median of the
// intervals about it.
func pitchesOf(times []float64) []int {
	var out []int
	for i := 3; i+4 < len(times); i++ {
		var about []float64
		for j := i - 3; j <= i+3; j++ {
			about = append(about, times[j+1]-times[j])
		}
		steps := math.Round((times[i+1] - times[i]) / median(about))
		out = append(out, int(math.Max(1, math.Min(steps, 100))))
	}
	return out
}

// again is the part of the gaps that come again after a period.
func again(steps []int, period int) float64 {
	same, gaps := 0, 0
	for i := range len(steps) - period {
		if steps[i] > 1 || steps[i+period] > 1 {
			gaps++
			if steps[i] == steps[i+period] {
				same++
			}
		}
	}
	return float64(same) / math.Max(1, float64(gaps))
}

// common is the period that comes most often, step by step.
func common(steps []int, period int) []int {
	out := make([]int, period)
	for i := range out {
		var column []float64
		for j := i; j < len(steps); j += period {
			column = append(column, float64(steps[j]))
		}
		out[i] = int(median(column))
	}
	return out
}

// fromGap turns the steps so that a gap ends them: the one that most teeth follow.
func fromGap(steps []int) []int {
	n, longest := len(steps), slices.Max(steps)
	last, most := 0, -1
	for i := range steps {
		teeth := 0
		for teeth < n && steps[(i+1+teeth)%n] < longest {
			teeth++
		}
		if steps[i] == longest && teeth > most {
			last, most = i, teeth
		}
	}
	return append(slices.Clone(steps[last+1:]), steps[:last+1]...)
}

// written is a turn of steps as Parse takes it: 60-2, or a list of degrees.
func written(steps []int) string {
	pitches := 0
	for _, s := range steps {
		pitches += s
	}
	n := len(steps)
	if slices.Max(steps[:n-1]) == 1 {
		return fmt.Sprintf("%d-%d", pitches, steps[n-1]-1)
	}
	var items []string
	for i := 0; i < n; {
		j := i
		for j < n && steps[j] == steps[i] {
			j++
		}
		degrees := brief(math.Round(float64(steps[i])*360/float64(pitches)*1e4) / 1e4)
		if j-i > 1 {
			degrees = fmt.Sprintf("%dx%s", j-i, degrees)
		}
		items = append(items, degrees)
		i = j
	}
	return strings.Join(items, ",")
}
