package plan

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// worthTurningBack is how much of TDC's ± turning back has to take off before it is asked
// for: it is work, and on some engines a risk.
const worthTurningBack = 0.1

// roundWithin is how much of TDC's ± round drops may cost.
const roundWithin = 0.02

// Advise is the plan of n readings, in pairs of equal drop, as one would take it who has
// done it: the best but for round drops, and turned back only where the best of either way
// says that it takes more than a tenth off TDC's ±. Errors are Best's.
func Advise(setup evidence.Setup, ground Ground, n int) (Plan, error) {
	p, err := Best(setup, ground, n)
	if err != nil {
		return p, err
	}
	if !ground.OneWay {
		if oneWay, err := Best(setup, ground.turned(true), n); err == nil && !gains(p, oneWay) {
			p = oneWay
		}
	}
	return rounded(setup, ground, p, geometry.Angle(math.Inf(1)))
}

// Otherwise is what as many readings as a plan's would reach turned the other way: one way
// of a plan that turns back, both ways of one that does not. Nil where there are no places
// for so many, or the crank may not be turned back.
func Otherwise(setup evidence.Setup, ground Ground, p Plan) *adjust.Foreseen {
	if ground.OneWay {
		return nil
	}
	ground = ground.turned(p.TurnsBack())
	other, err := Best(setup, ground, len(p.Points))
	if err != nil {
		return nil
	}
	if other, err = rounded(setup, ground, other, geometry.Angle(math.Inf(1))); err != nil {
		return nil
	}
	return &other.Foreseen
}

// turned is the ground turned one way alone, or both.
func (g Ground) turned(oneWay bool) Ground {
	g.OneWay = oneWay
	return g
}

// gains tells whether turning back is worth it.
func gains(bothWays, oneWay Plan) bool {
	return bothWays.Foreseen.TDC.Expanded < (1-worthTurningBack)*oneWay.Foreseen.TDC.Expanded
}

// rounded is a plan at the roundest drops that cost next to nothing and leave the readings
// within a standard uncertainty that is asked for; the plan itself where none do.
func rounded(setup evidence.Setup, ground Ground, p Plan, most geometry.Angle) (Plan, error) {
	ground = ground.turned(!p.TurnsBack())
	step := ground.Round
	if step == 0 {
		step = geometry.Millimetre / 2
	}
	for _, part := range []geometry.Length{1, 0.4, 0.2} {
		pairs, err := ground.roundPairs(setup, part*step)
		if err != nil {
			return p, err
		}
		if n := len(p.Points); n <= 2*room(pairs) {
			round, err := best(setup, ground, pairs, n)
			if err != nil {
				return p, err
			}
			if f := round.Foreseen; f.TDC.Expanded <= (1+roundWithin)*p.Foreseen.TDC.Expanded && f.AgreeTo.Uncertainty <= most {
				return round, nil
			}
		}
	}
	return p, nil
}

// roundPairs are the pairs at multiples of a step, the deepest first, no nearer to each
// other than places may be. Turned back there are the same: search takes each drop once.
func (g Ground) roundPairs(setup evidence.Setup, step geometry.Length) (pairs []pair, err error) {
	crank, err := setup.Kinematics()
	if err != nil {
		return nil, err
	}
	deepest := min(g.Deepest, crank.Drop(steepest))
	const rounding = 1e-9 // of a reach that is a multiple itself
	for _, turn := range g.turns() {
		last := geometry.Angle(math.Inf(1))
		for k := math.Floor(float64(deepest/step) + rounding); k >= 1; k-- {
			p, err := pairAt(crank, geometry.Length(k)*step, turn)
			if err != nil {
				return nil, err
			}
			if p.half >= shallowest && last-p.half >= max(roundApart, setup.Protractor.Step) {
				pairs, last = append(pairs, p), p.half
			}
		}
	}
	return pairs, nil
}

// roundApart is how near to each other places at round drops may lie: about as far apart
// as places may be at all, the rounding of these allowed for.
const roundApart = 0.8 * apart
