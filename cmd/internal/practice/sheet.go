package practice

import (
	"math"
	"math/rand/v2"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Held is the crank held where the gauge shows a depth, and where the pointer then stands.
type Held struct {
	Depth   float64 // mm, as the gauge shows it
	Turn    evidence.TurnDirection
	Falling bool    // beyond the top, in the direction of turning
	Pointer float64 // degrees on the protractor, 0 to 360, between its lines
}

// The crank angles from TDC near which the piston is held, degrees: two depths where the
// crank is turned both ways, four where one way.
var (
	heldBothWays = []float64{12, 22}
	heldOneWay   = []float64{10, 14, 18, 23}
)

// gaugeStep is what depths to hold the piston at are rounded to, mm: round figures of a dial.
const gaugeStep = 0.5

// AtEqualDepths is eight places to read off a drawn protractor: pairs at one depth, rising
// and falling, on the bench of the plan's job but by readings of their own. A plan that
// cannot be is an error.
func (p Plan) AtEqualDepths() ([]Held, error) {
	b, err := p.bench()
	if err != nil {
		return nil, err
	}
	b.rng = rand.New(rand.NewPCG(p.Seed, 0x7368656574))
	at := heldOneWay
	if len(p.Turns) > 1 {
		at = heldBothWays
	}
	var list []Held
	for _, turn := range p.Turns {
		for _, u := range at {
			drop := b.crank.Drop(geometry.Angle(u) * geometry.Degree)
			depth := rounded(float64(b.zero)+b.scale()*float64(drop), gaugeStep)
			for _, falling := range []bool{false, true} {
				pointer, err := b.pointer(depth, turn, falling)
				if err != nil {
					return nil, err
				}
				list = append(list, Held{depth, turn, falling, pointer})
			}
		}
	}
	return list, nil
}

// pointer is what the protractor shows where the gauge shows a depth. The piston lags the
// crank by half the lash: rising it is lower than the crank has it, falling higher.
func (b bench) pointer(depth float64, turn evidence.TurnDirection, falling bool) (float64, error) {
	protractor, gauge := evidence.DefaultProtractor(), evidence.DefaultGauge(evidence.Dial)
	low := geometry.Length((depth + within(b.rng, float64(gauge.Error)) - float64(b.zero)) / b.scale())
	side, drop := -turn, low-b.Lash/2
	if falling {
		side, drop = turn, low+b.Lash/2
	}
	before, after, err := b.crank.AnglesAt(drop)
	u := after
	if side < 0 {
		u = before
	}
	shown := (b.tdc + u).Positive().Degrees() + within(b.rng, protractor.Error.Degrees())
	return math.Mod(places(shown, 2)+360, 360), err
}
