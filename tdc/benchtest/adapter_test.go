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
func slipped(r tdc.Result) bool { return r.Slip != nil }

// scattered tells whether an answer says that the readings scatter too much.
func scattered(r tdc.Result) bool {
	for _, f := range r.Findings {
		if _, is := f.(finding.Scattered); is {
			return true
		}
	}
	return false
}

// tellsSlips is whether the program tells that something moved during the session; until
// then the figures of slips are printed beside their aims, and fail nothing.
const tellsSlips = true
