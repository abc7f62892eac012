// Package practice makes up readings for learners: an engine with instruments on
// it, errors that can be switched on, and the answer. The same plan gives the same
// readings. Everything in them is invented.
package practice

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"

	"evendrop/cmd/internal/practice/cams"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Plan is what is to be practised on.
type Plan struct {
	Seed        uint64
	Stroke, Rod geometry.Length
	Offset      geometry.Length // not told to the learner
	Lash        geometry.Length
	Tilt        geometry.Angle // of the gauge against the bore
	Typos       int
	Turns       []evidence.TurnDirection
	Readings    int             // a direction
	Pin         *geometry.Angle // how late a locking pin sits; nil: there is none
	Cams        cams.Wanted     // lobes, read after the piston
}

// The least and the most that a plan may ask for.
const (
	fewestReadings = 6
	mostReadings   = 60
	mostTilt       = 45 * geometry.Degree
	mostLash       = 0.5 * geometry.Millimetre
)

func (p Plan) check() (geometry.SliderCrank, error) {
	crank, err := geometry.NewSliderCrank(p.Stroke, p.Rod, p.Offset)
	switch {
	case err != nil:
		return crank, err
	case p.Readings < fewestReadings || p.Readings > mostReadings:
		return crank, fmt.Errorf("%d readings a direction: expected %d to %d", p.Readings, fewestReadings, mostReadings)
	case p.Typos < 0 || p.Typos > p.Readings/4:
		return crank, fmt.Errorf("%d mistyped readings: expected 0 to %d, a quarter of a direction's", p.Typos, p.Readings/4)
	case !(p.Tilt >= 0 && p.Tilt <= mostTilt):
		return crank, fmt.Errorf("a gauge tilted by %v: expected 0 to %v", p.Tilt, mostTilt)
	case !(p.Lash >= 0 && p.Lash <= mostLash):
		return crank, fmt.Errorf("lash of %v: expected 0 to %v", p.Lash, mostLash)
	case len(p.Turns) == 0:
		return crank, errors.New("no direction to turn in")
	}
	return crank, p.Cams.Check()
}

// scale is what a tilted gauge shows of a millimetre: its plunger slides along
// the crown.
func (p Plan) scale() float64 { return 1 / math.Cos(float64(p.Tilt)) }

// bench is the engine with instruments on it, as they truly are.
type bench struct {
	Plan
	rng   *rand.Rand
	crank geometry.SliderCrank
	tdc   geometry.Angle  // what the protractor shows at TDC
	zero  geometry.Length // what the gauge shows with the piston highest
}

func (p Plan) bench() (bench, error) {
	crank, err := p.check()
	if err != nil {
		return bench{}, err
	}
	rng := rand.New(rand.NewPCG(p.Seed, 0x70726163))
	return bench{Plan: p, rng: rng, crank: crank,
		tdc:  geometry.Angle(within(rng, 8)) * geometry.Degree,
		zero: geometry.Length(math.Round(100*(5+within(rng, 3))) / 100),
	}, nil
}

// within is a number drawn evenly from -bound to bound.
func within(rng *rand.Rand, bound float64) float64 { return bound * (2*rng.Float64() - 1) }

// rounded is what an instrument with a step shows.
func rounded(x, step float64) float64 { return math.Round(x/step) * step }
