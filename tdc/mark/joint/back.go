package joint

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// Back says of each slip that the marks pointed to before whether they still do.
// It goes by the likeliest explanation of each job.
func Back(before, after Diagnosis) []string {
	if len(before.Explanations) == 0 || before.Tried == 0 {
		return nil
	}
	var list []string
	for _, s := range before.Explanations[0].Slips {
		list = append(list, s.back(after))
	}
	return list
}

// back says whether a slip of before shows after.
func (s Slip) back(after Diagnosis) string {
	was := "Before, the marks pointed to " + s.String() + "."
	switch {
	case len(after.Explanations) == 0:
		return was + fmt.Sprintf(" Now no %s explain them: it cannot be told whether that is back.", slips(after.Tried))
	case after.Tried == 0:
		return was + fmt.Sprintf(" Now nothing need have moved: the marks have it back%s.", after.within(s.Joints))
	}
	for _, now := range after.Explanations[0].Slips {
		if shares(s.Joints, now.Joints) {
			return was + " Now they still point to it: not back, " + now.far() + "."
		}
	}
	for _, e := range after.Explanations[1:] {
		for _, now := range e.Slips {
			if shares(s.Joints, now.Joints) {
				return was + " Now they cannot tell between that and others: it is not shown to be back."
			}
		}
	}
	return was + " Now they no longer do: the marks have it back."
}

// within says by how much some joints may still be off; nothing of joints that no
// mark sees any more.
func (d Diagnosis) within(joints []string) string {
	var most geometry.Angle
	for _, j := range joints {
		limit, seen := d.limits[j]
		if !seen {
			return ", as far as they see it"
		}
		most = max(most, limit)
	}
	return fmt.Sprintf(" to within %.1f deg (95 %%)", math.Ceil(most.Degrees()*10)/10)
}

// far is how far a slip is, and which way.
func (s Slip) far() string {
	return fmt.Sprintf("%s ± %s deg %s", mark.Size(s.Angle), mark.Size(s.Expanded), mark.Way(s.Angle))
}

// shares tells whether two lists have a name in common.
func shares(a, b []string) bool {
	for _, x := range a {
		for _, y := range b {
			if x == y {
				return true
			}
		}
	}
	return false
}
