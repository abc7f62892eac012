package gum_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
)

// One thing alone has the interval of its spread, whichever of its parts rules.
func TestMixtureOfOne(t *testing.T) {
	for _, c := range [][2]float64{{1, 0}, {1, 0.02}, {1, 1}, {0.2, 3}, {1e-8, 1}} {
		p := gum.Possible{Weight: 1, At: 5, Normal: c[0], Half: c[1]}
		middle, half := gum.Mixture{p}.Interval()
		spread := gum.Spread{Normal: []gum.Component{{Standard: c[0], Degrees: math.Inf(1)}}, Rectangular: []float64{c[1] / math.Sqrt(3)}}
		require.InDelta(t, 5, middle, 1e-5)
		require.InEpsilon(t, spread.Expanded(), half, 1e-5) // the points are good to 1e-7 of probability
	}
}

// The points of a mixture are those of draws from it: of 400,000 a share of 2.5 % strays
// by 0.00025, three times which the ends may.
func TestMixtureIsDrawn(t *testing.T) {
	m := gum.Mixture{{Weight: 0.6, At: 0, Normal: 0.1, Half: 0.05}, {Weight: 0.3, At: 0.8, Normal: 0.2}, {Weight: 0.1, At: -0.5, Normal: 1e-9, Half: 0.4}}
	rng := rand.New(rand.NewPCG(1, 2))
	drawn := make([]float64, 400_000)
	for i := range drawn {
		k := slices.IndexFunc([]float64{0.6, 0.9, 1}, func(r float64) func(float64) bool { return func(upTo float64) bool { return r < upTo } }(rng.Float64()))
		drawn[i] = m[k].At + m[k].Normal*rng.NormFloat64() + m[k].Half*(2*rng.Float64()-1)
	}
	slices.Sort(drawn)
	for _, p := range []float64{0.025, 0.2, 0.5, 0.975} {
		x := m.Point(p)
		at, _ := slices.BinarySearch(drawn, x)
		require.InDelta(t, p, float64(at)/float64(len(drawn)), 3*math.Sqrt(p*(1-p)/float64(len(drawn))))
		require.InDelta(t, p, m.Below(x), 1e-6)
	}
}

// What stands beside one thing brings its interval to a half-width; nothing does to a
// smaller one than it has.
func TestBeside(t *testing.T) {
	for _, c := range [][3]float64{{0.1, 0, 0.3}, {0.1, 0.2, 0.5}, {0.01, 1, 1.2}, {0.05, 0.1, 0.15}} {
		p := gum.Possible{Normal: c[0], Half: c[1]}
		beside := p.Beside(c[2])
		with := gum.Spread{Normal: []gum.Component{{Standard: math.Hypot(c[0], beside), Degrees: math.Inf(1)}}, Rectangular: []float64{c[1] / math.Sqrt(3)}}
		require.InEpsilon(t, c[2], with.Expanded(), 1e-3)
	}
	require.Zero(t, gum.Possible{Normal: 1}.Beside(1.9))
}
