package joint

import (
	"math"

	"evendrop/tdc/mark"
)

// How is how a part is looked at, or a mark read.
type How string

// The looks, and the readings.
const (
	AtItsSeat     How = "seat of the mark"        // what the mark lines up with, and whether it is the right one
	AtItsEdges    How = "edges of the wheel"      // and which of them were meant
	AtFollower    How = "follower of the lobe"    // and the lobe itself
	AtSensor      How = "sensor"                  // its bracket and gap
	OtherCylinder How = "TDC of another cylinder" // and what the nominal angles count from
	CountDrive    How = "links of the drive"      // of the one drive round several sprockets
	CountDriveTo  How = "links of a drive"        // to one shaft
	AcrossPulley  How = "line across the pulley"
	AtSprocket    How = "crank sprocket"
	AtFlywheel    How = "flywheel"
	WheelTrue     How = "wheel true"
	RockIt        How = "rock by hand"
	SitsTight     How = "sits tight"
	ReadAgain     How = "read again"
	ReadAMark     How = "read a mark"
	ReadAnother   How = "read another mark"
)

// looks is a look at each part, which shows whether it has moved; the cheapest
// are those that need nothing taken off (common practice, no source).
func (x *explainer) looks() []Look {
	var looks []Look
	for j, p := range x.system.parts {
		l := x.inspection(p)
		l.between = func(a, b hypothesis) float64 {
			if a.has(j) != b.has(j) {
				return math.Inf(1)
			}
			return 0
		}
		looks = append(looks, l)
	}
	return looks
}

// ofLobe tells whether a part is a lobe itself, or its follower.
func (x *explainer) ofLobe(p part) bool { return p.kind == ground && x.findings[p.mark].Lobe != nil }

// inspection is how a part is looked at, and how dear that is: 1 outside, 3 and
// 4 with a cover off, 5 with more off than that.
func (x *explainer) inspection(p part) Look {
	carried, carrier := p.joint.Carried, p.joint.Carrier
	switch {
	case x.ofLobe(p):
		return Look{How: AtFollower, Part: x.findings[p.mark].Name, Cost: 3}
	case p.wheel != "":
		return Look{How: AtItsEdges, Part: p.wheel, Cost: 1}
	case p.kind == ground:
		return Look{How: AtItsSeat, Part: x.findings[p.mark].Name, Cost: 1}
	case p.kind == sensor:
		return Look{How: AtSensor, Part: p.name, Cost: 1}
	case p.kind == zeroPoint:
		return Look{How: OtherCylinder, Part: p.name, Cost: 5}
	case carried == mark.DriveMember:
		return Look{How: CountDrive, Part: carried, On: carrier, Cost: 3}
	case p.kind == drive:
		return Look{How: CountDriveTo, Part: carried, On: carrier, Cost: 3}
	case carried == mark.Pulley:
		return Look{How: AcrossPulley, Part: carried, On: carrier, Cost: 1}
	case carried == mark.CrankSprocket:
		return Look{How: AtSprocket, Part: carried, On: carrier, Cost: 4}
	case carried == mark.Flywheel:
		return Look{How: AtFlywheel, Part: carried, On: carrier, Cost: 5}
	case sensors[carried] != "":
		return Look{How: WheelTrue, Part: carried, On: carrier, Cost: 3}
	case x.system.tree.AtCamSpeed(carried):
		return Look{How: RockIt, Part: carried, On: carrier, Cost: 3}
	}
	return Look{How: SitsTight, Part: carried, On: carrier, Cost: 4}
}
