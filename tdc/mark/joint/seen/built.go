package seen

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// Built is where sound marks were made within their limits: one draw of a standard
// uncertainty that moves some marks, each its own way.
type Built struct {
	Standard float64 // radians
	Marks    []int   // by number
	Signs    []float64
}

// asBuilt is all draws that the marks' places as made are the sum of. A mark was made for
// itself; the edges of a cam's wheel were cut in one piece, so that what their limits allow
// is one draw for all of them, but for how well teeth are spaced.
func asBuilt(findings []mark.Judged, wheels []wheel) (list []Built) {
	together := map[int]bool{}
	for _, w := range wheels {
		list = append(list, w.asBuilt(findings)...)
		for _, i := range w.marks {
			together[i] = true
		}
	}
	for i, f := range findings {
		if !together[i] && f.AsBuilt() > 0 {
			list = append(list, Built{f.AsBuilt(), []int{i}, []float64{1}})
		}
	}
	return list
}

// spacing is what the teeth of a wheel are spaced to: 0.1 to 0.3 deg (common practice, no
// source). Of a limit that is hardly more, half is taken.
const spacing = 0.2 * geometry.Degree

// asBuilt is the draws of a wheel's edges. Where their limits differ, they share what the
// tighter of two allows, and the rest is of those that are allowed more.
func (w wheel) asBuilt(findings []mark.Judged) (list []Built) {
	type edge struct {
		at       int // in the wheel
		own, all float64
	}
	var edges []edge
	for k, i := range w.marks {
		if all := findings[i].AsBuilt(); all > 0 {
			own := math.Min(float64(spacing)/math.Sqrt(3), all/2)
			edges = append(edges, edge{k, own, square(all) - square(own)})
			list = append(list, Built{own, []int{i}, []float64{1}})
		}
	}
	slices.SortStableFunc(edges, func(a, b edge) int { return cmp.Compare(a.all, b.all) })
	before := 0.0
	for k, e := range edges {
		if e.all <= before {
			continue
		}
		step := Built{Standard: math.Sqrt(e.all - before)}
		for _, other := range edges[k:] {
			step.Marks, step.Signs = append(step.Marks, w.marks[other.at]), append(step.Signs, w.signs[other.at])
		}
		list, before = append(list, step), e.all
	}
	return list
}
