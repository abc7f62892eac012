package benchtest_test

import (
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/finding"
)

// What of tdc's answer the tests of this room look at, in one place.

// readings95 is the half-width of TDC's 95 % interval before the protractor's own error.
func readings95(r tdc.Result) geometry.Angle { return r.AgreeTo.Expanded }

// after is how far after TDC a mark is by a reading, and the half-width of its interval.
func after(r tdc.Result, read geometry.Angle) (found, half geometry.Angle) {
	seen := r.After([]geometry.Angle{read})
	return seen.Angle, geometry.Angle(seen.Spread().Expanded())
}

// slipped tells whether an answer says that something moved during the session.
func slipped(tdc.Result) bool { return false }

// scattered tells whether an answer says that the readings scatter too much.
func scattered(r tdc.Result) bool {
	for _, f := range r.Findings {
		if _, is := f.(finding.Scattered); is {
			return true
		}
	}
	return false
}

// What the program does so far: a figure whose aim needs what it does not do yet is
// printed beside its aim, and fails nothing.
const (
	sharesErrors  = true  // the protractor's own error is the same at the same graduation
	widensOffsets = true  // an offset that nobody stated may be 14 mm
	tellsSlips    = false // something moved during the session
	tellsScatter  = true  // scatter is said from p < 0.01 on
)
