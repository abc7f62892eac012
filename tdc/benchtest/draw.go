package benchtest

import (
	"math"
	"math/rand/v2"

	"evendrop/tdc/evidence"
)

// Drawn is a bench drawn from all that a setup leaves open.
func Drawn(rng *rand.Rand, s evidence.Setup) Bench {
	known := s.Engine.KnownTo
	return Bench{
		Throw:  (float64(s.Engine.Stroke) + Within(rng, float64(known.Stroke))) / 2,
		Rod:    float64(s.Engine.Rod) + Within(rng, float64(known.Rod)),
		Across: float64(s.Engine.Offset()) + Within(rng, float64(known.Offset)),
		Lash:   math.Max(0, float64(s.Gauge.Lash)+Within(rng, float64(s.Gauge.LashKnownTo))),
		Gauge:  1 + Within(rng, s.Gauge.ScaleKnownTo),
		Zero:   20 * rng.Float64(),
		Wheel:  float64(s.Protractor.OffCentre) * rng.Float64(),
		Phase:  2 * math.Pi * rng.Float64(),
		Radius: float64(s.Protractor.Radius),
		Start:  2 * math.Pi * rng.Float64(),
	}.Settled()
}

// Within is a number drawn evenly from -bound to bound.
func Within(rng *rand.Rand, bound float64) float64 { return bound * (2*rng.Float64() - 1) }

// Rounded is what an instrument with a step shows.
func Rounded(x, step float64) float64 {
	if step == 0 {
		return x
	}
	return math.Round(x/step) * step
}
