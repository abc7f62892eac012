package signal

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"evendrop/geometry"
	"evendrop/tdc/wheel/fault"
)

// Kind is how a sensor's signal looks.
type Kind string

// The kinds of signal.
const (
	Square    Kind = "square"    // Hall or magnetoresistive: two levels
	Inductive Kind = "inductive" // a coil: swings through zero where a tooth passes
)

// Levels are the levels of a channel over the whole capture.
type Levels struct {
	Kind        Kind
	low, high   float64 // of a square signal
	mean        float64 // the base of an inductive one
	swing       float64 // from base to peak
	Least, Most float64 // finite samples
}

// Sketch keeps samples spread over a signal of any length: one of each block of
// so many, at a place drawn by lot, since every so-manyth would keep step with a
// signal that comes back as often.
type Sketch struct {
	Kept  []float64
	block int // samples to each that is kept, a power of two; 0 before the first
	place int // of the last one kept in its block
	skip  int
	lot   uint64
}

// mostKept bounds a sketch: enough for the 0.5 and 99.5 percentiles of pulses
// that make up 1 % of the time.
const mostKept = 1 << 16

// Take takes the next sample.
func (k *Sketch) Take(v float64) {
	if k.skip > 0 {
		k.skip--
		return
	}
	if v != v {
		return
	}
	if len(k.Kept) == mostKept {
		for i := range mostKept / 2 {
			k.Kept[i] = k.Kept[2*i+k.draw(2)]
		}
		k.Kept = k.Kept[:mostKept/2]
		k.block *= 2
	}
	k.Kept = append(k.Kept, v)
	k.block = max(k.block, 1)
	next := k.draw(k.block)
	k.skip = k.block - 1 - k.place + next
	k.place = next
}

// draw is a number from 0 to below n, a power of two, from a linear congruential
// generator (Knuth, MMIX's constants, from memory): the same for the same capture.
func (k *Sketch) draw(n int) int {
	k.lot = k.lot*6364136223846793005 + 1442695040888963407
	return int(k.lot>>33) & (n - 1)
}

// The percentiles taken for a signal's extremes: a narrow cam pulse is some 1 %
// of a cycle, a spike much less.
const lowest, highest = 0.005, 0.995

// nearLevel is the part of the whole swing within which a sample is at a level,
// and mostlyLevel how many samples of a square signal are. A sine is within a
// fifth of its whole swing of either end for 2*acos(0.6)/pi = 59 % of the time, and a
// coil's signal less, as it rests in the gap.
const nearLevel, mostlyLevel = 0.2, 0.75

// windows is how many parts of the capture are looked at by themselves, so that
// levels that drift do not smear.
const windows = 16

// leastWindow is the fewest samples of a part.
const leastWindow = 64

// Levels are the levels of the samples kept; column is for messages. An error is of samples
// without a number, all the same, or infinitely far apart.
func (k *Sketch) Levels(column int) (Levels, error) {
	finiteOnes := slices.DeleteFunc(slices.Clone(k.Kept), func(v float64) bool { return math.IsInf(v, 0) })
	if len(finiteOnes) == 0 {
		return Levels{}, fault.Errorf("column %d has no number: choose another column", column)
	}
	l := Levels{Least: slices.Min(finiteOnes), Most: slices.Max(finiteOnes)}
	if !(l.Most > l.Least) || math.IsInf(l.Most-l.Least, 0) {
		return l, fault.Errorf("column %d stays at %s: choose the signal's column, or capture the engine turning", column, geometry.Decimal(l.Least, 9))
	}
	var parts []window
	for part := range slices.Chunk(k.Kept, max(leastWindow, (len(k.Kept)+windows-1)/windows)) {
		parts = append(parts, l.window(part))
	}
	most := slices.MaxFunc(parts, func(a, b window) int { return cmp.Compare(a.swing(), b.swing()) }).swing()
	parts = slices.DeleteFunc(parts, func(w window) bool { return w.swing() < most/2 })
	l.low, l.high, l.mean, l.swing = parts[0].low, parts[0].high, parts[0].mean, most/2
	near := 0.0
	for _, w := range parts {
		near += w.near / float64(len(parts))
	}
	l.Kind = Inductive
	if near >= mostlyLevel {
		l.Kind = Square
	}
	return l, nil
}

// window is the levels of a part of the capture.
type window struct {
	bottom, top float64 // but for spikes
	low, high   float64 // medians below and above the middle
	mean, near  float64 // near is the part of the samples that are near bottom or top
}

func (w window) swing() float64 { return w.top - w.bottom }

func (l Levels) window(samples []float64) window {
	sorted := make([]float64, len(samples))
	var w window
	for i, v := range samples {
		sorted[i] = l.Within(v)
		w.mean += sorted[i] / float64(len(samples))
	}
	slices.Sort(sorted)
	w.bottom, w.top = percentile(sorted, lowest), percentile(sorted, highest)
	if !(w.top > w.bottom) {
		w.bottom, w.top = sorted[0], sorted[len(sorted)-1]
	}
	split := sort.SearchFloat64s(sorted, (w.bottom+w.top)/2)
	w.low, w.high = w.bottom, percentile(sorted[split:], 0.5)
	if split > 0 {
		w.low = percentile(sorted[:split], 0.5)
	}
	w.near = near(sorted, w.bottom, w.top)
	return w
}

// near is the part of the samples that lie near either end.
func near(sorted []float64, bottom, top float64) float64 {
	margin := nearLevel * (top - bottom)
	low := sort.SearchFloat64s(sorted, bottom+margin)
	high := len(sorted) - sort.SearchFloat64s(sorted, top-margin)
	return float64(low+high) / float64(len(sorted))
}

// Within is a sample with one out of range put at the end of the range.
func (l Levels) Within(v float64) float64 { return max(l.Least, min(l.Most, v)) }

// percentile is a part of the way through sorted numbers.
func percentile(sorted []float64, part float64) float64 {
	return sorted[int(part*float64(len(sorted)-1))]
}

// Median is the middle one, the upper of two; +Inf of none.
func Median(xs []float64) float64 {
	if len(xs) == 0 {
		return math.Inf(1)
	}
	sorted := slices.Sorted(slices.Values(xs))
	return sorted[len(sorted)/2]
}
