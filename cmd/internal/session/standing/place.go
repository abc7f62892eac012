package standing

import (
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/job/sheet"
)

// Place is the next best reading, in parts.
type Place struct {
	Drop   string // how far the piston is down there, with its unit
	Side   string // of TDC: rising or falling
	Turn   evidence.TurnDirection
	Angle  string // near which the protractor stands; "" while TDC is not determined
	Gauge  string // near which the gauge shows, with its unit; "" while TDC is not determined
	Then   string // to what the readings agree with it, degrees; "" where another reading promises nothing
	At     geometry.Angle
	Depth  geometry.Length // as the gauge shows it
	Enough bool            // more readings will hardly help
	Again  []string        // early places to read once more before the end
}

// The sides of TDC.
const (
	rising  = "rising"
	falling = "falling"
)

// side is that of a crank angle after TDC.
func side(after geometry.Angle) string {
	if after > 0 {
		return falling
	}
	return rising
}

// Place is the next best reading; false where no place is left to read, or which side is
// which is in doubt.
func (j State) Place() (p Place, ok bool) {
	n := j.Next
	if n == nil || j.Result != nil && j.Result.AgainstTurn() {
		return p, false
	}
	p = Place{Drop: j.Bench().Drop(n.Drop), Side: side(n.Angle), Turn: n.Turn}
	if !j.fitted() {
		return p, true
	}
	p.At = j.Result.TDC.Angle + n.Angle
	p.Depth, _ = j.Result.Expect(p.At, n.Turn)
	p.Angle, p.Gauge = j.Bench().Reads(p.At, 0), j.Bench().Depth(p.Depth)
	if j.narrows() {
		now := j.Result.AgreeTo
		p.Then = words.WithinDegrees(now.Expanded * (n.Uncertainty / now.Uncertainty))
	}
	p.Enough, p.Again = j.enough(), j.early()
	return p, true
}

// narrows tells whether another reading can be foreseen to narrow the answer: where readings
// contradict one another, no interval is to be promised.
func (j State) narrows() bool {
	switch j.Result.CannotTell.(type) {
	case nil, finding.TooVague:
		return true
	}
	return false
}

// Limited tells whether the protractor's own error is what keeps TDC from being surer.
func (j State) Limited() bool { return j.Result != nil && j.limited() }

// Expected is the depth that the gauge should show at an angle, its standard uncertainty,
// and the side of TDC; false while no curve tells it.
func (j State) Expected(at geometry.Angle, turn evidence.TurnDirection) (depth, sigma geometry.Length, of string, ok bool) {
	if !j.fitted() {
		return 0, 0, "", false
	}
	depth, sigma = j.Result.Expect(at, turn)
	return depth, sigma, side((at - j.Result.TDC.Angle).Signed()), true
}

// Suspect tells whether a reading of the list does not fit, or was asked about and left.
func (j State) Suspect(i int) bool {
	earlier := len(j.Readings) - len(j.Current)
	return sheet.Has(j.Doubted, j.Readings[i]) || j.fitted() && i >= earlier && j.Result.Readings[i-earlier].Suspect
}
