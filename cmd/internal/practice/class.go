package practice

import (
	"fmt"
	"math"
	"math/rand/v2"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// The least and the most engines of a class.
const (
	SmallestClass = 2
	LargestClass  = 40
)

// PinLimit is how far a practice locking pin may be off, crank degrees either way.
const PinLimit = 1.0

// Class is n engines that no two learners share, every one with a locking pin, from one
// seed. A smaller class of the same seed is the beginning of a larger one. Fewer or more
// engines than a class has are an error.
func Class(seed uint64, n int) ([]Plan, error) {
	if n < SmallestClass || n > LargestClass {
		return nil, fmt.Errorf("a class of %d: expected %d to %d engines", n, SmallestClass, LargestClass)
	}
	rng := rand.New(rand.NewPCG(seed, 0x636c617373))
	type dimensions struct{ stroke, rod geometry.Length }
	taken := map[dimensions]bool{}
	var plans []Plan
	for len(plans) < n {
		p := classPlan(rng)
		if d := (dimensions{p.Stroke, p.Rod}); !taken[d] {
			taken[d] = true
			plans = append(plans, p)
		}
	}
	return plans, nil
}

// classPlan draws an engine and what is wrong with its readings: one in three is turned
// one way, one in three has a mistyped reading, one in four a gauge that leans or an
// offset that nobody stated.
func classPlan(rng *rand.Rand) Plan {
	stroke := evenly(rng, 66, 98, 0.5)
	late := pinLate(rng)
	p := Plan{
		Seed:   rng.Uint64() >> 1, // TOML has no larger numbers
		Stroke: geometry.Length(stroke), Rod: geometry.Length(rounded(stroke*evenly(rng, 1.55, 1.95, 0.01), 0.5)),
		Lash: geometry.Length(evenly(rng, 0.02, 0.1, 0.01)), Readings: 12, Pin: &late,
		Turns: []evidence.TurnDirection{evidence.Forward, evidence.Backward},
	}
	if rng.IntN(3) == 0 {
		p.Turns = p.Turns[:1]
	}
	if rng.IntN(3) == 0 {
		p.Typos = 1
	}
	if rng.IntN(4) == 0 {
		p.Tilt = geometry.Angle(evenly(rng, 8, 20, 1)) * geometry.Degree
	}
	if rng.IntN(4) == 0 {
		p.Offset = geometry.Length(evenly(rng, 1, 2, 0.1))
	}
	return p
}

// pinLate is how late a pin is: half of them nearly in place, half well beyond the limit,
// either way, so that no verdict is a matter of luck.
func pinLate(rng *rand.Rand) geometry.Angle {
	late := evenly(rng, 0, 0.3, 0.1)
	if rng.IntN(2) == 0 {
		late = evenly(rng, 2, 4, 0.1)
	}
	if rng.IntN(2) == 0 {
		late = -late
	}
	return geometry.Angle(late) * geometry.Degree
}

// evenly is a number drawn from low to high, in steps.
func evenly(rng *rand.Rand, low, high, step float64) float64 {
	return places(low+step*float64(rng.IntN(1+int(math.Round((high-low)/step)))), 6)
}
