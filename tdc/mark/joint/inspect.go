package joint

import (
	"math"

	"evendrop/tdc/mark"
)

// looks is a look at each part, which shows whether it has moved; the cheapest
// are those that need nothing taken off (common practice, no source).
func (x *explainer) looks() []Look {
	var looks []Look
	for j, p := range x.system.parts {
		what, cost := x.inspection(p)
		looks = append(looks, Look{What: what, cost: cost, between: func(a, b hypothesis) float64 {
			if a.has(j) != b.has(j) {
				return math.Inf(1)
			}
			return 0
		}})
	}
	return looks
}

// inspection is how a part is looked at, and how dear that is: 1 outside, 3 and
// 4 with a cover off, 5 with more off than that.
func (x *explainer) inspection(p part) (what string, cost int) {
	j := p.joint
	t := x.system.tree
	switch {
	case p.kind == ground:
		m := x.findings[p.mark]
		return "look at what the " + m.Name + " is held against, its boss, pointer, bracket or seat, and at whether it is the right hole or tooth", 1
	case p.kind == sensor:
		return "look at the " + p.name + "'s bracket and gap", 1
	case p.kind == zeroPoint:
		return "find the piston's TDC in another cylinder, and ask whether the nominal angles count from the piston or from the throw", 5
	case j.Carried == mark.DriveMember:
		return "count the links or teeth between the timing marks of the crank sprocket and the cams', and look at the drive's tensioner and guides", 3
	case p.kind == drive:
		return "count the links or teeth between the timing marks of the drive to the " + j.Carried + ", and look at its tensioner and guides", 3
	case j.Carried == mark.Pulley:
		return "see whether a line drawn across the pulley's hub, rubber and ring still meets, and whether its key is whole", 1
	case j.Carried == mark.CrankSprocket:
		return "look at what holds the crank sprocket to the crank: key, washer, bolt", 4
	case j.Carried == mark.Flywheel:
		return "see whether the flywheel's dowel and bolts sit in their own holes", 5
	case sensors[j.Carried] != "":
		return "see whether the " + j.Carried + " sits tight and true on the " + j.Carrier, 3
	case t.AtCamSpeed(j.Carried):
		return "where the maker allows it, rock the " + j.Carried + " on the " + j.Carrier + " by hand: an unlocked phaser or a loose bolt gives; look at dowel or key", 3
	}
	return "see whether the " + j.Carried + " sits tight on the " + j.Carrier, 4
}
