package evidence

import "evendrop/geometry"

// TurnDirection is the way the crank was turned up to a reading.
type TurnDirection int

// The two directions.
const (
	Forward  TurnDirection = 1  // the running direction
	Backward TurnDirection = -1 // against it
)

// String is the direction as the readings file writes it.
func (t TurnDirection) String() string {
	if t == Backward {
		return "backward"
	}
	return "forward"
}

// Reading is one angle and one depth taken together.
type Reading struct {
	Angle geometry.Angle  // crank, in the running direction from the protractor's zero
	Depth geometry.Length // growing as the piston goes down, from any zero
	Turn  TurnDirection
	Side  Side   // that the angle was written with
	Sweep string // the run of readings it belongs to; free text
	Note  string
	Set   int    // that it belongs to: 1, 2, ... each time the protractor was moved on the crank; 0 is 1
	File  string // where it stands, for messages
	Line  int
}

// Stop is a pair of contact angles with a positive stop.
type Stop struct {
	Rising, Falling geometry.Angle // crank, from the protractor's zero
}

// DwellPair is where motion was seen to end and to begin again.
type DwellPair struct {
	Still, Moves geometry.Angle // crank, from the protractor's zero
	Turn         TurnDirection
}

// Setup is the engine and the instruments on it.
type Setup struct {
	Engine     Engine
	Protractor Protractor
	Gauge      Gauge
}

// View is two angles at which the crown was seen at the same place, whatever its
// depth, turned in one direction.
type View struct {
	Before, After geometry.Angle // crank, from the protractor's zero
	Turn          TurnDirection
}

// Cylinder is one cylinder's evidence.
type Cylinder struct {
	Number   int
	Throw    geometry.Angle // nominal, after cylinder 1's TDC
	Readings []Reading
	Stops    []Stop
	Dwell    []DwellPair
	Views    []View
}

// Columns is the angles (radians) and the depths (mm) of readings.
func Columns(read []Reading) (angle, depth []float64) {
	for _, r := range read {
		angle = append(angle, float64(r.Angle))
		depth = append(depth, float64(r.Depth))
	}
	return angle, depth
}

// OneSided tells whether every reading was typed on the same side of the zero.
func OneSided(read []Reading) bool {
	before, after := 0, 0
	for _, r := range read {
		switch at := r.Angle.Signed(); {
		case at < 0:
			before++
		case at > 0:
			after++
		}
	}
	return before == 0 || after == 0
}
