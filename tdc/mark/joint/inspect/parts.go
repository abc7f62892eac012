package inspect

import (
	"math"

	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/seen"
)

// How is how a part is looked at, or a mark read.
type How string

// The looks, and the readings.
const (
	AtItsSeat     How = "seat of the mark"        // what the mark lines up with, and whether it is the right one
	AtItsEdges    How = "edges of the wheel"      // and which of them were meant
	AtFollower    How = "follower of the lobe"    // and the lobe itself
	AtSensor      How = "sensor"                  // its bracket and gap
	PistonAgain   How = "piston again"            // and what the nominal angles count from
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
func looks(s *seen.System) []Look {
	var looks []Look
	for j, p := range s.Parts {
		l := inspection(s, p)
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

// inspection is how a part is looked at, and how dear that is: 1 outside, 3 and
// 4 with a cover off, 5 with more off than that.
func inspection(s *seen.System, p seen.Part) Look {
	carried, carrier := p.Joint.Carried, p.Joint.Carrier
	switch {
	case s.OfLobe(p):
		return Look{How: AtFollower, Part: s.Marks[p.Mark].Name, Cost: 3}
	case p.Wheel != "":
		return Look{How: AtItsEdges, Part: p.Wheel, Cost: 1}
	case p.Kind == seen.Ground:
		return Look{How: AtItsSeat, Part: s.Marks[p.Mark].Name, Cost: 1}
	case p.Kind == seen.Sensor:
		return Look{How: AtSensor, Part: p.Name, Cost: 1}
	case p.Kind == seen.Scale:
		return Look{How: PistonAgain, Part: p.Name, Cost: 0}
	case p.Kind == seen.ZeroPoint:
		return Look{How: OtherCylinder, Part: p.Name, Cost: 5}
	case carried == mark.DriveMember:
		return Look{How: CountDrive, Part: carried, On: carrier, Cost: 3}
	case p.Kind == seen.Drive:
		return Look{How: CountDriveTo, Part: carried, On: carrier, Cost: 3}
	case carried == mark.Pulley:
		return Look{How: AcrossPulley, Part: carried, On: carrier, Cost: 1}
	case carried == mark.CrankSprocket:
		return Look{How: AtSprocket, Part: carried, On: carrier, Cost: 4}
	case carried == mark.Flywheel:
		return Look{How: AtFlywheel, Part: carried, On: carrier, Cost: 5}
	case seen.Sensed(carried):
		return Look{How: WheelTrue, Part: carried, On: carrier, Cost: 3}
	case s.Tree.AtCamSpeed(carried):
		return Look{How: RockIt, Part: carried, On: carrier, Cost: 3}
	}
	return Look{How: SitsTight, Part: carried, On: carrier, Cost: 4}
}
