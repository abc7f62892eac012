// Package pattern finds what comes again in the times of a crank wheel's edges, and
// names the wheel that makes it.
package pattern

import (
	"fmt"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/signal"
)

// Pattern is what comes again in a signal's edges: a turn of the wheel, or one of
// its equal parts, as steps in whole pitches of which a gap is the last.
type Pattern []int

// mostlyAgain is the part of the gaps that have to come again: a turn in ten may
// be bad, and spoils two comparisons.
const mostlyAgain = 0.8

// mostLookedAt is how many edges are enough to see what comes again in them.
const mostLookedAt = 10 * wheel.MostTeeth

// Of is the pattern of edges; nil when nothing comes again in them.
func Of(times []float64) Pattern {
	steps := pitchesOf(times[:min(len(times), mostLookedAt)])
	for period := 2; period <= len(steps)/2 && period <= wheel.MostTeeth; period++ {
		if again(steps, period) < mostlyAgain {
			continue
		}
		one := common(steps, period)
		if slices.Max(one) == slices.Min(one) {
			continue
		}
		return fromGap(one)
	}
	return nil
}

// pitchesOf is each interval in whole pitches: by the median of the intervals about
// it, and then by its neighbours, each for as many pitches as it seemed. A gap during
// which the speed changes much is too short by the neighbours' mean time and too long
// by their mean speed, so the mean of both is taken.
func pitchesOf(times []float64) []int {
	var out []int
	for i := 3; i+4 < len(times); i++ {
		var about []float64
		for j := i - 3; j <= i+3; j++ {
			about = append(about, times[j+1]-times[j])
		}
		out = append(out, pitches((times[i+1]-times[i])/signal.Median(about)))
	}
	for range 2 {
		before := slices.Clone(out)
		for i := 1; i+1 < len(out); i++ {
			j := i + 3
			a, b := (times[j]-times[j-1])/float64(before[i-1]), (times[j+2]-times[j+1])/float64(before[i+1])
			out[i] = pitches((times[j+1] - times[j]) * (2/(a+b) + (1/a+1/b)/2) / 2)
		}
	}
	return out
}

func pitches(ratio float64) int { return int(math.Max(1, math.Min(math.Round(ratio), 100))) }

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
		out[i] = int(signal.Median(column))
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

// Pitches is how many make the pattern.
func (p Pattern) Pitches() int {
	sum := 0
	for _, s := range p {
		sum += s
	}
	return sum
}

// Gaps are the teeth missing at each of so many patterns' gaps, ascending.
func (p Pattern) Gaps(parts int) []int {
	var out []int
	for _, s := range slices.Repeat(p, parts) {
		if s > 1 {
			out = append(out, s-1)
		}
	}
	slices.Sort(out)
	return out
}

// Wheel is the one that has the pattern so many times in a turn; an error as wheel.Parse
// has it.
func (p Pattern) Wheel(parts int) (wheel.Wheel, error) { return wheel.Parse(p.Written(parts)) }

// Written is such a wheel as Parse takes it: 60-2, or a list of degrees.
func (p Pattern) Written(parts int) string {
	n := len(p)
	if parts == 1 && slices.Max(p[:n-1]) == 1 {
		return fmt.Sprintf("%d-%d", p.Pitches(), p[n-1]-1)
	}
	return p.List(parts)
}

// List is such a wheel's degrees from edge to edge.
func (p Pattern) List(parts int) string {
	var w wheel.Wheel
	for _, s := range slices.Repeat(p, parts) {
		w.Intervals = append(w.Intervals, geometry.Turn*geometry.Angle(s)/geometry.Angle(parts*p.Pitches()))
	}
	return w.List()
}

// Name is such a wheel by its pitches and gaps alone: 36-2-2-2.
func (p Pattern) Name(parts int) string {
	name := fmt.Sprint(parts * p.Pitches())
	for _, gap := range p.Gaps(parts) {
		name += fmt.Sprintf("-%d", gap)
	}
	return name
}
