package joint

import (
	"slices"

	"evendrop/tdc/mark/joint/seen"
)

// refuted tells whether witnesses speak against all that a slip of a set may be.
func (x *explainer) refuted(f fitted) bool {
	for k, g := range f.set {
		if len(x.Left(x.Groups[g], f.slips[k])) == 0 {
			return true
		}
	}
	return false
}

// onBench tells whether a set needs the protractor or pointer to have moved.
func (x *explainer) onBench(f fitted) bool {
	for k, g := range f.set {
		left := x.Left(x.Groups[g], f.slips[k])
		if !slices.ContainsFunc(left, func(i int) bool { return x.Parts[x.Groups[g].Parts[i]].Kind != seen.Scale }) {
			return true
		}
	}
	return false
}

// offBench tells whether the engine alone may show what a set says.
func (x *explainer) offBench(f fitted) bool { return !x.onBench(f) }
