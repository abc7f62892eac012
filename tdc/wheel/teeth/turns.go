// Package teeth finds whole turns among the edges of a crank wheel's teeth, the crank
// angle through them, and the teeth that stand off it.
package teeth

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
)

// Run is whole turns on end, each with the teeth it should have: n teeth a turn
// and the first of the turn after.
type Run struct {
	Times []float64 // of the leading edges, seconds
	Turns int
}

// Turns are the good turns among leading edges, and how many were left out.
type Turns struct {
	Runs    []Run
	Used    int // turns in the runs
	LeftOut int
}

// Find looks for turns whose intervals are the wheel's. Each interval,
// taken as the speed at which its degrees went by, is compared with the mean of
// its neighbours: that is the plain test of an interval over the mean of its
// neighbours, once for the gap and once for every tooth.
func Find(times []float64, w wheel.Wheel) Turns {
	n := w.Teeth()
	limit := math.Sqrt(w.Contrast())
	var found Turns
	after := 0 // the edge after the last good turn
	for s := 0; s+n < len(times); {
		if !turnAt(times, s, w.Intervals, limit) {
			s++
			continue
		}
		found.LeftOut += skipped(s-after, n, after > 0)
		found.add(times[s:s+n+1], s == after)
		s += n
		after = s
	}
	if after > 0 {
		found.LeftOut += skipped(len(times)-1-after, n, false)
	}
	return found
}

// add adds a turn, to the run it follows or as a new one.
func (f *Turns) add(times []float64, follows bool) {
	f.Used++
	if follows && len(f.Runs) > 0 {
		last := &f.Runs[len(f.Runs)-1]
		last.Times = append(last.Times, times[1:]...)
		last.Turns++
		return
	}
	f.Runs = append(f.Runs, Run{Times: append([]float64(nil), times...), Turns: 1})
}

// From is the whole turns of a run of parts that begins at a part's angle.
func (r Run) From(begins geometry.Angle, w wheel.Wheel) Run {
	n := w.Teeth()
	into := int(math.Round(float64(begins/w.Part()))) % w.Parts()
	times := r.Times[min(len(r.Times), (w.Parts()-into)%w.Parts()*w.PartTeeth()):]
	if len(times) <= n {
		return Run{}
	}
	whole := (len(times) - 1) / n
	return Run{Times: times[:whole*n+1], Turns: whole}
}

// skipped is how many turns so many edges were. Between good turns that is one at
// least; at the capture's ends a part of a turn is nobody's fault.
func skipped(edges, n int, between bool) int {
	switch {
	case edges == 0:
		return 0
	case between:
		return max(1, int(math.Round(float64(edges)/float64(n))))
	}
	return edges / n
}

// turnAt says whether a turn begins at an edge.
func turnAt(times []float64, s int, intervals []geometry.Angle, limit float64) bool {
	n := len(intervals)
	for j := n - 1; j >= 0; j-- { // the gap first: few edges have one there
		ratio := overNeighbours(func(j int) float64 {
			if s+j < 0 || s+j+1 >= len(times) {
				return math.NaN()
			}
			return (times[s+j+1] - times[s+j]) / float64(intervals[(j+n)%n])
		}, j)
		if !(ratio > 1/limit && ratio < limit) {
			return false
		}
	}
	return true
}

// overNeighbours is an interval over the mean of those on either side, or over
// the one there is at an end, where the other is NaN.
func overNeighbours(interval func(int) float64, j int) float64 {
	before, after := interval(j-1), interval(j+1)
	switch {
	case math.IsNaN(before):
		before = after
	case math.IsNaN(after):
		after = before
	}
	return interval(j) / ((before + after) / 2)
}
