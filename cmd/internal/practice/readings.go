package practice

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// The crank angles from TDC that are read, degrees.
const (
	nearest  = 8.0
	farthest = 28.0
)

// Taken is a reading as the learner gets it.
type Taken struct {
	Angle, Depth float64 // degrees and mm, as the instruments show them
	Turn         evidence.TurnDirection
	// Meant is the depth that was read, where Depth is mistyped; else Depth.
	Meant float64
}

// sweep is the angles from TDC of a run of readings, in the order of turning. A
// person aims at even steps and misses a little.
func (b bench) sweep(turn evidence.TurnDirection) (angles []geometry.Angle) {
	before := b.Readings / 2
	for i := range b.Readings {
		side, n, of := -1.0, before-1-i, before
		if i >= before {
			side, n, of = 1, i-before, b.Readings-before
		}
		u := nearest + (farthest-nearest)*float64(n)/math.Max(1, float64(of-1)) + within(b.rng, 1)
		angles = append(angles, geometry.Angle(float64(turn)*side*u)*geometry.Degree)
	}
	return angles
}

// take reads the instruments in every direction.
func (b bench) take() (list []Taken) {
	protractor, gauge := evidence.DefaultProtractor(), evidence.DefaultGauge(evidence.Dial)
	for _, turn := range b.Turns {
		angles := b.sweep(turn)
		for i, low := range b.low(angles) {
			angle := (b.tdc + angles[i]).Degrees() + within(b.rng, protractor.Error.Degrees())
			shown := geometry.Angle(rounded(angle, protractor.Step.Degrees())) * geometry.Degree
			depth := float64(b.zero) + b.scale()*float64(low) + within(b.rng, float64(gauge.Error))
			depth = rounded(depth, float64(gauge.Step))
			list = append(list, Taken{
				Angle: rounded(shown.Positive().Degrees(), protractor.Step.Degrees()), Depth: depth, Meant: depth, Turn: turn,
			})
		}
	}
	return list
}

// low is how far below its highest point the piston is at angles passed in their
// order. It lags the crank by half the lash, and on reversing stays where it is
// until all of it is used up. A sweep starts with the lash taken up, rising.
func (b bench) low(angles []geometry.Angle) (list []geometry.Length) {
	low, rising := geometry.Length(0), true
	for i, u := range angles {
		drop := b.crank.Drop(u)
		if i == 0 {
			low = drop + b.Lash/2
		}
		if rising && i > 0 && angles[i-1]*u < 0 { // come over the top
			low, rising = b.Lash/2, false
		}
		low = max(drop-b.Lash/2, min(drop+b.Lash/2, low))
		list = append(list, low)
	}
	return list
}

// mistype spoils as many readings as planned, each by a whole millimetre: a turn
// of the dial's pointer, counted wrong.
func (b bench) mistype(list []Taken) {
	order := b.rng.Perm(len(list))
	for _, i := range order[:b.Typos] {
		slip := 1.0
		if b.rng.IntN(2) == 0 && list[i].Depth > 1 {
			slip = -1
		}
		list[i].Depth += slip
	}
}
