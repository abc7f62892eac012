package joint

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// Back is, of each slip that the marks pointed to before, whether they still do. It
// goes by the likeliest explanation of each job.
func Back(before, after Diagnosis) []finding.Finding {
	if len(before.Explanations) == 0 || before.Tried == 0 {
		return nil
	}
	var list []finding.Finding
	for _, s := range before.Explanations[0].Slips {
		list = append(list, s.back(after))
	}
	return list
}

// back is whether a slip of before shows after.
func (s Slip) back(after Diagnosis) finding.SlipBack {
	b := finding.SlipBack{Before: s.Finding(), Now: finding.Elsewhere, Tried: after.Tried}
	switch {
	case len(after.Explanations) == 0:
		b.Now = finding.Unexplained
		return b
	case after.Tried == 0:
		b.Now, b.Within = finding.NothingMoved, after.within(s.Joints)
		return b
	}
	if now := after.Explanations[0].shared(s); now != nil {
		left := now.Finding()
		b.Now, b.After = finding.NotBack, &left
	} else if slices.ContainsFunc(after.Explanations[1:], func(e Explanation) bool { return e.shared(s) != nil }) {
		b.Now = finding.MaybeBack
	}
	return b
}

// shared is the explanation's slip that has a joint in common with another; nil
// without one.
func (e Explanation) shared(with Slip) *Slip {
	for _, s := range e.Slips {
		if slices.ContainsFunc(s.Joints, func(j string) bool { return slices.Contains(with.Joints, j) }) {
			return &s
		}
	}
	return nil
}

// within is by how much some joints may still be off; nil of joints that no mark
// sees any more.
func (d Diagnosis) within(joints []string) *geometry.Angle {
	var most geometry.Angle
	for _, j := range joints {
		limit, seen := d.limits[j]
		if !seen {
			return nil
		}
		most = max(most, limit)
	}
	return &most
}
