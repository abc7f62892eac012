package tdc

import "evendrop/tdc/adjust/curve"

// Pair is two angles with TDC half-way between them: repeats of one stop are averaged.
type Pair struct {
	curve.Midpoint
	Suspect bool // it does not fit the rest
}

// Pairs is every stop, dwell and equal view of the set, as the answer took them.
func (r Result) Pairs() []Pair {
	var list []Pair
	for k, m := range r.fit.Pairs {
		list = append(list, Pair{m, r.fit.Suspect[len(r.fit.Read)+k]})
	}
	return list
}
