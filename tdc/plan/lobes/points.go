package lobes

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// Use is what a reading is for.
type Use string

// The uses.
const (
	ForEvent Use = "event" // straddles the checking lift
	ForShape Use = "shape" // shows unlike flanks, and missing lift all over the lobe
	ForTop   Use = "top"
)

// Point is a place to read.
type Point struct {
	Flank finding.LobeFlank
	Lift  geometry.Length // on the gauge, about
	Share float64         // of the top
	Angle *geometry.Angle // crank after TDC, about; nil: nobody knows
	Use   Use
	Read  bool // the lobe's readings have it

	after geometry.Angle // crank after TDC, where a forecast has it
}

// straddles is how far before and after an event its two readings lie: so far apart that
// they tell the flank's slope on their own wherever a hand stops within half a degree,
// and so near that the straight line between them is right to 0.05 deg.
const straddles = 2.5 * geometry.Degree

// shares are the lifts, of the top, that show a lobe's shape: one reading each a flank
// tells about as much as two (TestFewerReadings).
var shares = []float64{0.25, 0.5, 0.75}

// points is where to read a lobe that is expected so, in the order that the crank comes
// there.
func points(e meant) []Point {
	half := e.timing.Duration() / 2
	var rising []Point
	for _, by := range []geometry.Angle{straddles, -straddles} {
		low := e.checking / 3 // near the foot of a flank so much lower is low enough
		rising = append(rising, e.point(finding.OpeningFlank, max(low, e.lift(half+by)), ForEvent))
	}
	for _, share := range shares {
		lift := geometry.Length(share) * e.top
		if math.Abs(float64(e.reaches(lift)-half)) > float64(2*straddles) {
			rising = append(rising, e.point(finding.OpeningFlank, lift, ForShape))
		}
	}
	slices.SortFunc(rising, func(a, b Point) int { return cmp.Compare(a.Lift, b.Lift) })
	list := append(rising, e.point(finding.TopOfLobe, e.top, ForTop))
	for _, p := range slices.Backward(rising) {
		list = append(list, e.point(finding.ClosingFlank, p.Lift, p.Use))
	}
	return list
}

// point is where a flank is expected to have a lift.
func (e meant) point(flank finding.LobeFlank, lift geometry.Length, use Use) Point {
	p := Point{Flank: flank, Lift: lift, Share: float64(lift / e.top), Use: use, after: e.timing.Centre()}
	switch flank {
	case finding.OpeningFlank:
		p.after -= e.reaches(lift)
	case finding.ClosingFlank:
		p.after += e.reaches(lift)
	}
	if e.placed || e.centred && flank == finding.TopOfLobe {
		p.Angle = &p.after
	}
	return p
}

// How near a lift is to be read, as a share of the top: one of the shape so that each is
// another, and the top as near as a card's may be out.
const (
	nearShape = 0.1
	nearTop   = 0.05
)

// tick marks the points that a lobe's readings have.
func tick(points []Point, m lobe.Measured) {
	for i := range points {
		p := &points[i]
		top := p.Lift / geometry.Length(p.Share)
		switch p.Use {
		case ForEvent:
			p.Read = m.Straddled(p.Flank, m.Checking())
		case ForShape:
			p.Read = m.ReadAt(p.Flank, p.Lift, nearShape*top)
		case ForTop:
			p.Read = m.ReadAt(p.Flank, p.Lift, nearTop*top)
		}
	}
}
