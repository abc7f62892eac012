package found

import (
	"slices"

	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
)

// Called is the marks with a verdict.
func (f All) Called(v mark.Verdict) (list []mark.Judged) {
	for _, m := range f.Marks {
		if m.Verdict == v {
			list = append(list, m)
		}
	}
	return list
}

// TDCInDoubt tells whether the marks point to the TDC that they are compared with,
// likeliest.
func (f All) TDCInDoubt() bool {
	for _, e := range f.Diagnosis.Explanations[:min(1, len(f.Diagnosis.Explanations))] {
		for _, s := range e.Slips {
			if slices.ContainsFunc(s.Joints, isTDC) {
				return true
			}
		}
	}
	return false
}

// ZeroInDoubt tells whether the marks may be late by what they are compared with: TDC, or the
// zero of the given angles.
func (f All) ZeroInDoubt() bool { return f.TDCInDoubt() || f.Diagnosis.GivenAngles }

// isTDC tells whether a joint stands for the TDC that the marks are compared with, or for what
// both were read by.
func isTDC(name string) bool { return seen.IsZero(legible.Undirected(name)) }

// Never is what not to do by the marks; "" where there is nothing to forbid.
func (f All) Never() string {
	outside := len(f.Called(mark.Outside))
	jumped := outside > 0 && f.jumped()
	switch {
	case f.ZeroInDoubt() && jumped:
		return f.first() + " " + words.StartNot
	case f.ZeroInDoubt():
		return f.first()
	case jumped:
		return "Do not time the engine by what is outside, and do not start it before the drive is looked at."
	case outside == 1:
		return "Do not time the engine by the mark that is outside."
	case outside > 1:
		return "Do not time the engine by the marks that are outside."
	}
	return ""
}

// first is what to make sure of where the zero of the marks is in doubt.
func (f All) first() string {
	const sure = "Before you suspect a part, make sure of TDC and of what the given angles count from."
	switch {
	case !f.TDCInDoubt():
		return "Before you suspect a part, make sure of what the given angles count from."
	case f.Diagnosis.OnBench:
		return "Before you suspect a part, make sure that protractor and pointer have not moved since the pistons were read, and of what the given angles count from."
	case f.partsAlike():
		return sure + " Several parts that each moved the same way would look the same."
	}
	return sure
}

// jumped tells whether a slip that is likely is of whole teeth: valves may then meet pistons.
func (f All) jumped() bool {
	likely, _, _ := f.Diagnosis.Ranked()
	return slices.ContainsFunc(likely, func(e joint.Explanation) bool {
		return slices.ContainsFunc(e.Slips, func(s joint.Slip) bool { return len(s.Teeth()) > 0 })
	})
}

// partsAlike tells whether marks of several members are outside on one side, which the first
// explanation puts down to one thing: within their limits several things do as well.
func (f All) partsAlike() bool {
	outside := f.Called(mark.Outside)
	if len(outside) < 2 || len(f.Diagnosis.Explanations[0].Slips) > 1 {
		return false
	}
	others := func(m mark.Judged) bool { return m.On != outside[0].On }
	elsewhere := func(m mark.Judged) bool { return (m.Angle > 0) != (outside[0].Angle > 0) }
	return slices.ContainsFunc(outside, others) && !slices.ContainsFunc(outside, elsewhere)
}
