package wheel

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

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
	if seen, err := Parse(best); err == nil && seen.Pitches() == w.Pitches() && seen.Teeth() < w.Teeth() {
		return faultf("column %d shows no turn of %s, and a tooth fewer in every turn, as %s has: look at the wheel and its sensor for a broken tooth. "+
			"Beside the gap it moves where angles count from, so type --wheel %s only when that is the wheel", column, w.Name, best, best)
	}
	return faultf("column %d shows no turn of %s: what comes again in it is %s: if that is the wheel, damaged or not, type --wheel %s", column, w.Name, best, best)
}

// mostlyAgain is the part of the gaps that have to come again: a turn in ten may
// be bad, and spoils two comparisons.
const mostlyAgain = 0.8

// mostLookedAt is how many edges are enough to see what comes again in them.
const mostLookedAt = 10 * mostTeeth

// usual are wheels that most engines have one of (common practice, no source).
var usual = []string{"60-2", "36-1"}

// otherwise is the wheel that the signal plainly shows where it is another than the
// one told; "" of none. Its teeth are counted surely; how wide the gap is, where the
// speed ripples, only so well that a wheel that is usual is believed before one that
// is not. A wheel of one gap is meant: of others, what a damaged tooth does to them
// looks like another wheel.
func (t Trace) otherwise(w Wheel) string {
	if !w.plain() {
		return ""
	}
	other := ""
	for _, way := range []Way{Rising, Falling} {
		seen := seenWheel(t.edges[0].way(way))
		parsed, err := Parse(seen)
		switch {
		case seen == "" || err != nil || !parsed.plain():
		case parsed.Teeth() == w.Teeth() && (parsed.Alike(w) || slices.Contains(usual, w.Name) || !slices.Contains(usual, seen)):
			return ""
		default:
			other = seen
		}
	}
	return other
}

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
