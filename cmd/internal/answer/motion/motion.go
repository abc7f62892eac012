package motion

import (
	"math"

	"evendrop/geometry"
)

// Motion is how pistons move near TDC.
type Motion struct {
	engines  []engine
	angles   []geometry.Angle // of the table, from TDC
	from, to geometry.Angle   // of the plot
	within   []geometry.Length
	rpm      float64         // turns a minute; zero: unknown
	liquid   geometry.Volume // trapped above the piston; zero: not asked
	inches   bool            // a person reads lengths in inches
}

// engine is one of the engines side by side.
type engine struct {
	geometry.SliderCrank
	pinOffset, boreOffset geometry.Length
	offsetStated          bool
	bore                  geometry.Length    // zero: unknown
	compression           float64            // zero: unknown
	cylinder              *geometry.Cylinder // nil: bore or compression unknown
}

// mostEngines is how many engines fit side by side.
const mostEngines = 6

// motionRow is one engine at one crank angle.
type motionRow struct {
	angle     geometry.Angle
	drop      geometry.Length
	slope     geometry.Slope
	speed     *float64        // m/s, down positive
	swept     *float64        // cm3 since TDC
	volume    *float64        // cm3 above the piston
	cosine    geometry.Length // drop in pure cosine motion with the same throw
	riseAtBDC geometry.Length // above the lowest point, as far from BDC as angle is from TDC
}

func (m Motion) row(e engine, u geometry.Angle) motionRow {
	drop, slope, _ := e.Motion(u)
	r := motionRow{
		angle: u, drop: drop, slope: slope,
		cosine:    e.cosineDrop(u),
		riseAtBDC: e.Stroke() - e.Drop(e.BDC()-e.TDC()+u),
	}
	if m.rpm > 0 {
		r.speed = new(float64(slope) * m.rpm * 2 * math.Pi / 60 / 1000)
	}
	if e.bore > 0 {
		r.swept = new(e.area() * float64(drop) / 1000)
	}
	if e.cylinder != nil {
		r.volume = new(e.cylinder.VolumeAt(u).CubicCentimetres())
	}
	return r
}

// area is the bore's, mm^2.
func (e engine) area() float64 { return math.Pi / 4 * float64(e.bore) * float64(e.bore) }

// cosineDrop is the drop that a infinitely long rod would give, r (1 - cos u), by
// the half angle so that no digits are lost near TDC.
func (e engine) cosineDrop(u geometry.Angle) geometry.Length {
	half := math.Sin(float64(u) / 2)
	return 2 * e.Throw() * geometry.Length(half*half)
}

// dwell is how long an engine stays near an end of its stroke.
type dwell struct {
	within        geometry.Length
	before, after geometry.Angle
	cosine, atBDC geometry.Angle // whole, in pure cosine motion and about BDC
}

func (d dwell) total() geometry.Angle { return d.after - d.before }

// dwell is the crank angle over which e stays within a drop of its highest
// point; about BDC, of its lowest. The drop is within the stroke.
func (e engine) dwell(within geometry.Length) (dwell, error) {
	d := dwell{within: within}
	var err error
	if d.before, d.after, err = e.Dwell(within); err != nil {
		return d, err
	}
	low, high, err := e.AnglesAt(e.Stroke() - within)
	d.atBDC = geometry.Turn - (high - low)
	sine := math.Sqrt(float64(within / (2 * e.Throw())))
	d.cosine = geometry.Angle(4 * math.Asin(math.Min(1, sine))) // 1 - cos = 2 sin^2 of the half
	return d, err
}
