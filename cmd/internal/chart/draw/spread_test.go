package draw_test

import (
	"flag"
	"math"
	"slices"
	"testing"

	"evendrop/cmd/internal/chart/draw"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// By hand: a label alone stays; two at one place share the way; three push the
// outer ones; the ends hold.
func TestSpread(t *testing.T) {
	for _, c := range []struct {
		wanted, sizes []float64
		want          []float64
	}{
		{[]float64{50}, []float64{10}, []float64{50}},
		{[]float64{50, 50}, []float64{10, 10}, []float64{45, 55}},
		{[]float64{50, 50, 50}, []float64{10, 10, 10}, []float64{40, 50, 60}},
		{[]float64{20, 80}, []float64{10, 10}, []float64{20, 80}},
		{[]float64{80, 20}, []float64{10, 10}, []float64{80, 20}},
		{[]float64{1, 2}, []float64{10, 10}, []float64{5, 15}},
		{[]float64{99, 98}, []float64{10, 10}, []float64{95, 85}},
		{[]float64{40, 52, 52}, []float64{10, 10, 10}, []float64{38, 48, 58}}, // mean of 40, 42, 32
		{[]float64{50, 52}, []float64{20, 10}, []float64{43.5, 58.5}},         // 43.5 - 50 = -(58.5 - 52)
	} {
		require.InDeltaSlice(t, c.want, draw.Spread(c.wanted, c.sizes, 0, 100), 1e-12, "%v", c.wanted)
	}
}

// Whatever is wanted: none upon another, inside the ends, and no run of
// neighbours can move for the better without touching another: in a problem as
// round as this one, the least squares.
func TestSpreadAlways(t *testing.T) {
	t.Log("rapid.seed", flag.Lookup("rapid.seed").Value)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		wanted, sizes := make([]float64, n), make([]float64, n)
		for i := range n {
			wanted[i] = rapid.Float64Range(-20, 120).Draw(t, "wanted")
			sizes[i] = rapid.Float64Range(1, 12).Draw(t, "size") // eight always fit
		}
		placed := draw.Spread(wanted, sizes, 0, 100)
		const rounding = 1e-9 // of sums of numbers to 100
		free := func(placed []float64) bool {
			for i := range n {
				if placed[i] < sizes[i]/2-rounding || placed[i] > 100-sizes[i]/2+rounding {
					return false
				}
				for j := range i {
					if math.Abs(placed[i]-placed[j]) < (sizes[i]+sizes[j])/2-rounding {
						return false
					}
				}
			}
			return true
		}
		require.True(t, free(placed), "%v of %v wanting %v", placed, sizes, wanted)
		cost := func(placed []float64) (sum float64) {
			for i := range n {
				sum += (placed[i] - wanted[i]) * (placed[i] - wanted[i])
			}
			return sum
		}
		for i := range n {
			for j := range n {
				for _, by := range []float64{-0.01, 0.01} {
					other := slices.Clone(placed)
					for k := range n {
						if placed[k] >= placed[i] && placed[k] <= placed[j] {
							other[k] += by
						}
					}
					better := cost(other) < cost(placed)-rounding
					require.False(t, better && free(other), "%v could be %v, wanting %v", placed, other, wanted)
				}
			}
		}
	})
}
