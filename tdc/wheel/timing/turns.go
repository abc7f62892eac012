package timing

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
)

// run is whole turns on end, each with the teeth it should have: n teeth a turn
// and the first of the turn after.
type run struct {
	times []float64
	turns int
}

// turns are the good turns among leading edges, and how many were left out.
type turns struct {
	runs    []run
	used    int
	leftOut int
}

// findTurns looks for turns whose intervals are the wheel's. Each interval,
// taken as the speed at which its degrees went by, is compared with the mean of
// its neighbours: that is the plain test of an interval over the mean of its
// neighbours, once for the gap and once for every tooth.
func findTurns(times []float64, w wheel.Wheel) turns {
	n := w.Teeth()
	limit := math.Sqrt(w.Contrast())
	var found turns
	after := 0 // the edge after the last good turn
	for s := 0; s+n < len(times); {
		if !turnAt(times, s, w.Intervals, limit) {
			s++
			continue
		}
		found.leftOut += skipped(s-after, n, after > 0)
		found.add(times[s:s+n+1], s == after)
		s += n
		after = s
	}
	if after > 0 {
		found.leftOut += skipped(len(times)-1-after, n, false)
	}
	return found
}

// add adds a turn, to the run it follows or as a new one.
func (f *turns) add(times []float64, follows bool) {
	f.used++
	if follows && len(f.runs) > 0 {
		last := &f.runs[len(f.runs)-1]
		last.times = append(last.times, times[1:]...)
		last.turns++
		return
	}
	f.runs = append(f.runs, run{times: append([]float64(nil), times...), turns: 1})
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
