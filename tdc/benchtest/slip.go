package benchtest

import (
	"math"
	"math/rand/v2"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Slip is what moves while a job is read, or is written down wrong.
type Slip struct {
	After  int     // so many readings
	Angle  float64 // degrees: the protractor reads so much more from then on
	Depth  float64 // mm: the gauge shows so much more from then on
	Sweeps []int   // whose turn is written down the other way round
}

// moved is how much more, in degrees and mm, the instruments show at the i-th reading
// for what slipped before it.
func (s Session) moved(i int) (angle, depth float64) {
	for _, slip := range s.Slips {
		if i >= slip.After {
			angle += slip.Angle
			depth += slip.Depth
		}
	}
	return angle, depth
}

// TrueAtEnd is what the wheel shows at TDC after all that slipped, in radians; Truth is
// what it showed at the start.
func (b Bench) TrueAtEnd(s Session) float64 {
	moved, _ := s.moved(s.Layout.Readings)
	return b.Truth() + moved*Degree
}

// relabelled is readings with turns written down as the session's slips have it.
func relabelled(readings []evidence.Reading, s Session) []evidence.Reading {
	per := s.Layout.perSweep()
	for _, slip := range s.Slips {
		for _, sweep := range slip.Sweeps {
			for i := sweep * per; i < (sweep+1)*per; i++ {
				readings[i].Turn = -readings[i].Turn
			}
		}
	}
	return readings
}

// A Moment is after how many readings something slips.
type Moment struct {
	Name string
	At   func(rng *rand.Rand, l Layout) int
}

// The moments.
var (
	AtTurnBack    = Moment{"at the turn-back", func(_ *rand.Rand, l Layout) int { return l.perSweep() }}
	BetweenFlanks = Moment{"between flanks", func(rng *rand.Rand, l Layout) int {
		sweep := rng.IntN(l.Sweeps)
		return sweep*l.perSweep() + l.firstFlank(sweep)
	}}
	// Anywhere leaves two readings on either side: of fewer none can tell a slip from a
	// reading mistyped.
	Anywhere = Moment{"anywhere", func(rng *rand.Rand, l Layout) int { return 2 + rng.IntN(l.Readings-3) }}
	AtAnEnd  = Moment{"at an end", func(rng *rand.Rand, l Layout) int { return 1 + rng.IntN(2)*(l.Readings-2) }}
)

// AnglesSlip is a protractor or its pointer moved by so many degrees, either way.
func AnglesSlip(rng *rand.Rand, l Layout, m Moment, by float64) Slip {
	return Slip{After: m.At(rng, l), Angle: eitherWay(rng, by)}
}

// DepthsSlip is a gauge moved by so many mm, either way.
func DepthsSlip(rng *rand.Rand, l Layout, m Moment, by float64) Slip {
	return Slip{After: m.At(rng, l), Depth: eitherWay(rng, by)}
}

// eitherWay is x or -x.
func eitherWay(rng *rand.Rand, x float64) float64 { return x * float64(1-2*rng.IntN(2)) }

// Mistype spoils so many of the readings: a depth by 0.5 to 5 mm or an angle by
// 5 to 30 degrees, either way. It tells which.
func Mistype(rng *rand.Rand, readings []evidence.Reading, count int) (spoilt []evidence.Reading, which []int) {
	spoilt = slices.Clone(readings)
	which = rng.Perm(len(readings))[:count]
	for _, i := range which {
		sign := float64(1 - 2*rng.IntN(2))
		if rng.IntN(2) == 0 {
			spoilt[i].Depth += geometry.Length(sign * (0.5 + 4.5*rng.Float64()))
		} else {
			spoilt[i].Angle += geometry.Angle(sign*(5+25*rng.Float64())) * geometry.Degree
		}
	}
	return spoilt, which
}

// Mirrored is readings with the sign of one angle lost, of those at least 3 deg from
// the protractor's zero, and which; nothing is changed where there is none.
func Mirrored(rng *rand.Rand, readings []evidence.Reading) (spoilt []evidence.Reading, which int) {
	spoilt = slices.Clone(readings)
	for _, i := range rng.Perm(len(readings)) {
		if math.Abs(readings[i].Angle.Signed().Degrees()) >= 3 {
			spoilt[i].Angle = -spoilt[i].Angle
			return spoilt, i
		}
	}
	return spoilt, -1
}
