package mark

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
)

// ChangeVerdict is whether a mark has moved between two jobs.
type ChangeVerdict string

// What may be said of a change.
const (
	Changed         ChangeVerdict = "changed"
	Unchanged       ChangeVerdict = "unchanged"
	ChangeUncertain ChangeVerdict = "too close to call"
)

// smallestFault stands in for a limit where none was given: faults of interest
// are of a degree and more (common practice, no source).
const smallestFault = 1 * geometry.Degree

// Change is a mark in two jobs on one engine.
type Change struct {
	Before, After Judged
	gum.Estimate  // Angle is how much later it is than before
	Verdict       ChangeVerdict
	Within        geometry.Angle // what a change that is none must lie within
}

// Changes is the marks that both jobs have, in the order of the second. A mark
// that is not the same in both is an *Error, of the second.
func Changes(before, after []Judged) ([]Change, error) {
	var list []Change
	for _, a := range after {
		for _, b := range before {
			if a.Name != b.Name {
				continue
			}
			here, there := Healthy{On: a.On, Against: a.Reference()}, Healthy{On: b.On, Against: b.Reference()}
			if problem := here.differs(there); problem != "" {
				return nil, ofMark(a.index, a.Mark, "%s, before: give the two different names", problem)
			}
			if a.Lobe != nil && b.Lobe != nil && !a.Lobe.sameCard(*b.Lobe) {
				return nil, ofMark(a.index, a.Mark, "it is compared with another card here than before: write the same card into both jobs")
			}
			if !sameNominal(a, b) {
				return nil, ofMark(a.index, a.Mark, "it should be at %s deg here and at %s before: write the same should_be and zero into both jobs",
					geometry.Decimal(a.Nominal.Degrees(), 9), geometry.Decimal(b.Nominal.Degrees(), 9))
			}
			list = append(list, change(b, a))
		}
	}
	return list, nil
}

// sameNominal tells whether two jobs hold a mark against the same angle.
func sameNominal(a, b Judged) bool {
	const rounding = 1e-6 * geometry.Degree
	if a.Lobe != nil && b.Lobe != nil { // weighed each by its own flanks
		return true
	}
	return a.Off != nil || b.Off != nil || math.Abs(float64((a.Nominal-b.Nominal).Signed())) < float64(rounding)
}

// change is one mark's. The nominal angle cancels, and so does its uncertainty;
// what the jobs measured counts twice, as if they shared nothing, though one
// protractor's errors and one engine's lash may cancel in part.
func change(b, a Judged) Change {
	c := Change{Before: b, After: a, Within: smallestFault}
	switch {
	case a.HasLimit:
		c.Within = a.Limit
	case b.HasLimit:
		c.Within = b.Limit
	}
	c.Estimate = joined(b.measuring, a.measuring).Estimate(Wrapped(a.Angle-b.Angle, min(a.Period, b.Period)))
	c.Verdict = decideChange(c.Angle, c.Expanded, c.Within)
	return c
}

// ChangeOfTDC is how much later TDC stands on the protractor.
func ChangeOfTDC(before, after tdc.Result) Change {
	c := Change{Within: smallestFault}
	b, a := before.TDC, after.TDC
	c.Estimate = gum.Spread{Normal: []gum.Component{
		{Standard: float64(b.Uncertainty), Degrees: b.DegreesOfFreedom}, {Standard: float64(a.Uncertainty), Degrees: a.DegreesOfFreedom},
	}}.Estimate((a.Angle - b.Angle).Signed())
	c.Verdict = decideChange(c.Angle, c.Expanded, c.Within)
	return c
}

// decideChange calls a change when its whole 95 % interval lies on one side of
// zero, and none when the interval holds zero and lies within the limit either
// way.
func decideChange(by, expanded, limit geometry.Angle) ChangeVerdict {
	size := geometry.Angle(math.Abs(float64(by)))
	switch {
	case size > expanded:
		return Changed
	case size+expanded <= limit:
		return Unchanged
	}
	return ChangeUncertain
}
