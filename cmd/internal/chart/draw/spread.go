package draw

import (
	"cmp"
	"math"
	"slices"
)

// Spread moves labels apart. Each wants its middle at a place and takes a size;
// the answer is where the middles go, in the same order: between low and high,
// none upon another, and otherwise as near to what they want as least squares
// can. Labels that cannot all fit run beyond high.
func Spread(wanted, sizes []float64, low, high float64) []float64 {
	order := make([]int, len(wanted))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(wanted[a], wanted[b]) })

	var rows []row
	for _, i := range order {
		r := row{members: []int{i}, size: sizes[i], pull: wanted[i] - sizes[i]/2}
		r.settle(low, high)
		for n := len(rows); n > 0 && rows[n-1].start+rows[n-1].size > r.start; n-- {
			r = rows[n-1].joined(r)
			r.settle(low, high)
			rows = rows[:n-1]
		}
		rows = append(rows, r)
	}

	placed := make([]float64, len(wanted))
	for _, r := range rows {
		at := r.start
		for _, i := range r.members {
			placed[i] = at + sizes[i]/2
			at += sizes[i]
		}
	}
	return placed
}

// row is labels that touch, placed as one.
type row struct {
	members []int
	size    float64
	pull    float64 // sum of where each member would have the row start
	start   float64
}

// settle puts a row where its members pull it, inside the ends.
func (r *row) settle(low, high float64) {
	r.start = math.Max(low, math.Min(high-r.size, r.pull/float64(len(r.members))))
}

// joined is r with next after it.
func (r row) joined(next row) row {
	return row{
		members: append(slices.Clone(r.members), next.members...),
		size:    r.size + next.size,
		pull:    r.pull + next.pull - float64(len(next.members))*r.size,
	}
}
