package joint

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// along is two cams along one drive: what drives both, by part, and what drives the farther
// one from there on. A belt round both sprockets does not tell which is the farther.
type along struct {
	both, on int
	nearer   string // the sprocket of the other cam
	told     bool   // the drive tells which is the farther
}

// alongs is every pair of cams along one drive. Parts that are joints stand in the tree's
// order.
func alongs(t *mark.Tree) (list []along) {
	for far, j := range t.Joints {
		path := t.Path(j.Carrier)
		at := slices.IndexFunc(path, func(i int) bool { return t.Joints[i].Jumps() })
		if !j.Drive || at < 0 {
			continue
		}
		both := path[at]
		if t.Joints[both].Drive {
			list = append(list, along{both, far, t.Joints[both].Carried, true})
			continue
		}
		for _, other := range t.Joints {
			if other.Drive && other.Carrier == j.Carrier && other.Carried != j.Carried {
				list = append(list, along{both, far, other.Carried, false})
			}
		}
	}
	return list
}

// worn tells of cams that stand as a belt or chain worn long leaves them: all late, the
// farther along it more, by no more than as much again, and none by whole teeth. That the
// farther is later has to be measured; that no limits made it so is told apart.
func worn(x sizes, s *search) []finding.Finding {
	for _, a := range alongs(x.Tree) {
		if f, is := wornAlong(x, s, a); is {
			return []finding.Finding{f}
		}
	}
	return nil
}

func wornAlong(x sizes, s *search, a along) (f finding.WornLong, is bool) {
	late, more, spread, ok := s.lateness(a)
	if !ok {
		return f, false
	}
	drive, farther := x.Parts[a.both], late
	farther.Angle += more.Angle
	sure := late.Angle > late.Expanded && slices.Contains(x.causes(drive, late), finding.WornDrive)
	measured := gum.Spread{Normal: spread.Normal}.Estimate(more.Angle)
	switch {
	case !sure || jumped(drive, late) || jumped(drive, farther):
		return f, false
	case more.Angle <= measured.Expanded || more.Angle > late.Angle:
		return f, false
	}
	return finding.WornLong{
		Nearer: a.nearer, Farther: x.Tree.Joints[a.on].Carried, Told: a.told, Late: late.Angle, LateExpanded: late.Expanded,
		More: more.Angle, MoreExpanded: more.Expanded, Beyond: more.Angle > more.Expanded,
	}, true
}

// lateness is how late the nearer cam is and how much more the farther, as the two alone
// explain the marks; false where they do not, or marks do not tell the two apart.
func (s *search) lateness(a along) (late, more gum.Estimate, spread gum.Spread, ok bool) {
	first, sign := s.groupOf(a.both)
	second, other := s.groupOf(a.on)
	if first < 0 || second < 0 || first == second {
		return late, more, spread, false
	}
	set := []int{first, second}
	factor, independent := s.columns.Factor(set)
	if !independent {
		return late, more, spread, false
	}
	off := s.turns[0]
	shift, chi := factor.Solve(off.Observed)
	f := fitted{set: set, shift: shift, chiSquare: chi, degrees: len(s.Marks) - len(set)}
	if !s.explains(off.off, f) {
		return late, more, spread, false
	}
	spreads := s.spreads(&factor, f)
	late, more = spreads[0].Estimate(geometry.Angle(sign*shift[0])), spreads[1].Estimate(geometry.Angle(other*shift[1]))
	return late, more, spreads[1], true
}

// groupOf is the group that a part is in, and the sign of its column there; -1 of one that
// no mark sees.
func (s *search) groupOf(part int) (at int, sign float64) {
	for k, g := range s.Groups {
		if i := slices.Index(g.Parts, part); i >= 0 {
			return k, g.Signs[i]
		}
	}
	return -1, math.NaN()
}
