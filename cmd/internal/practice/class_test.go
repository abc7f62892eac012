package practice

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// A class is the same for the same seed and the beginning of a larger one; no two engines of
// it are alike, and everything that is to be practised is in it.
func TestClass(t *testing.T) {
	small, err := Class(7, 12)
	require.NoError(t, err)
	large, err := Class(7, LargestClass)
	require.NoError(t, err)
	require.Equal(t, small, large[:12])
	other, err := Class(8, 12)
	require.NoError(t, err)
	require.NotEqual(t, small, other)
	type dimensions struct{ stroke, rod geometry.Length }
	seen, traps := map[dimensions]bool{}, map[string]int{}
	for _, p := range large {
		seen[dimensions{p.Stroke, p.Rod}] = true
		require.LessOrEqual(t, p.Seed, uint64(math.MaxInt64), "TOML has no larger number")
		late := math.Abs(p.Pin.Degrees())
		require.True(t, late <= 0.3+1e-9 || late >= 2-1e-9, "a pin at %g deg is a matter of luck", late)
		for name, is := range map[string]bool{
			"one way": len(p.Turns) == 1, "typo": p.Typos > 0, "tilt": p.Tilt > 0, "offset": p.Offset != 0, "pin outside": late > PinLimit,
			"both ways": len(p.Turns) == 2, "pin within": late <= PinLimit, "no typo": p.Typos == 0,
		} {
			if is {
				traps[name]++
			}
		}
	}
	require.Len(t, seen, LargestClass)
	require.Len(t, traps, 8, "%v", traps)
	for _, n := range []int{-1, 0, 1, LargestClass + 1} {
		_, err := Class(7, n)
		require.ErrorContains(t, err, "expected 2 to 40 engines")
	}
}

// triangle is how far the piston is below its highest point at u degrees from it, by the
// triangle of crank, rod and bore: no code of the program's.
func triangle(p Plan, u float64) float64 {
	r, l, e := float64(p.Stroke)/2, float64(p.Rod), float64(p.Offset)
	height := func(phi float64) float64 { return r*math.Cos(phi) + math.Sqrt(l*l-math.Pow(r*math.Sin(phi)-e, 2)) }
	top := math.Asin(e / (l + r))
	return height(top) - height(top+u*math.Pi/180)
}

// Every pointer stands where the engine has the piston at the depth that is stated, the lash
// on its side, as near as the instruments' bounds let it: 0.25 deg and 0.02 mm.
func TestPointersAreTheEngines(t *testing.T) {
	plans, err := Class(3, LargestClass)
	require.NoError(t, err)
	for _, p := range plans {
		b, err := p.bench()
		require.NoError(t, err)
		held, err := p.AtEqualDepths()
		require.NoError(t, err)
		require.Len(t, held, 8)
		for n, h := range held {
			u := (geometry.Angle(h.Pointer)*geometry.Degree - b.tdc).Signed().Degrees()
			require.Equal(t, h.Falling, u*float64(h.Turn) > 0, "rising comes before the top")
			lag := float64(p.Lash) / 2
			if h.Falling {
				lag = -lag
			}
			low := func(u float64) float64 { return triangle(p, u) + lag } // how low the piston is
			ends := []float64{low(u - 0.256), low(u + 0.256)}              // 0.25 deg, and the pointer kept to a hundredth
			want := (h.Depth - float64(b.zero)) * math.Cos(float64(p.Tilt))
			require.GreaterOrEqual(t, want, slices.Min(ends)-0.0201, "stroke %v, pointer %d", p.Stroke, n+1)
			require.LessOrEqual(t, want, slices.Max(ends)+0.0201, "stroke %v, pointer %d", p.Stroke, n+1)
			require.InDelta(t, math.Round(h.Depth*2), h.Depth*2, 1e-9, "round figures of the dial")
			require.Equal(t, held[n-n%2].Depth, h.Depth, "pairs at one depth")
			require.True(t, h.Pointer >= 0 && h.Pointer < 360)
		}
		require.Equal(t, len(p.Turns) == 2, held[7].Turn == evidence.Backward)
	}
}

// Half-way of a sheet read well is right where the crank is turned both ways: in all of 120
// engines, seeds 0 to 2. Turned one way it comes late on average.
func TestHalfWayOfASheetIsRight(t *testing.T) {
	late, oneWay := 0.0, 0
	for seed := range uint64(3) {
		plans, err := Class(seed, LargestClass)
		require.NoError(t, err)
		for _, p := range plans {
			j, err := p.Make()
			require.NoError(t, err)
			held, err := p.AtEqualDepths()
			require.NoError(t, err)
			sum := 0.0
			for _, h := range held {
				sum += apart(math.Round(2*h.Pointer)/2, j.Answer.TDC) // to half a degree, as a learner reads it
			}
			if len(p.Turns) == 1 {
				late, oneWay = late+sum/8, oneWay+1
				continue
			}
			require.LessOrEqual(t, math.Abs(sum/8), j.Answer.Limit, "seed %d, stroke %v", seed, p.Stroke)
		}
	}
	require.Greater(t, oneWay, 20)
	require.Greater(t, late/float64(oneWay), 0.05) // lash of 0.02 to 0.1 mm, halved, over a slope of 0.15 to 0.4 mm/deg
}
