package geometry_test

import (
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/geometry"
)

const (
	deg = geometry.Degree
	mm  = geometry.Millimetre
)

// near demands that got is want to within tolerance, in want's own unit. A NaN
// on either side, or for a tolerance, fails.
func near[N ~float64](t require.TestingT, want, got, tolerance N, what string) {
	if h, ok := t.(interface{ Helper() }); ok {
		h.Helper()
	}
	if off := math.Abs(float64(got - want)); !(off <= float64(tolerance)) {
		require.Failf(t, what, "got %.15g, want %.15g, off %.3g", float64(got), float64(want), off)
	}
}

// Random cases are the same every time, unless flags say otherwise.
func init() {
	for name, value := range map[string]string{"rapid.seed": "1876", "rapid.nofailfile": "true", "rapid.checks": "300"} {
		if err := flag.Set(name, value); err != nil {
			panic(err)
		}
	}
}

// check draws random cases, and logs their seed.
func check(t *testing.T, property func(t *rapid.T)) {
	t.Helper()
	t.Log("rapid.seed", flag.Lookup("rapid.seed").Value)
	rapid.Check(t, property)
}

// must makes a slider-crank that can turn.
func must(t require.TestingT, stroke, rod, offset geometry.Length) geometry.SliderCrank {
	s, err := geometry.NewSliderCrank(stroke, rod, offset)
	require.NoError(t, err)
	return s
}

// anySliderCrank draws one: strokes from model engines' to ships', rods from
// just long enough to six throws, offsets nearly as big as can turn.
func anySliderCrank(t *rapid.T) geometry.SliderCrank {
	stroke := rapid.Float64Range(10, 3000).Draw(t, "stroke")
	rod := stroke / 2 * rapid.Float64Range(1.05, 6).Draw(t, "rod over throw")
	offset := (rod - stroke/2) * rapid.Float64Range(-0.95, 0.95).Draw(t, "offset over its limit")
	return must(t, geometry.Length(stroke), geometry.Length(rod), geometry.Length(offset))
}
