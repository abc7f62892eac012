package wheel

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
)

const rounding = 1e-12 // of times of some seconds

func detect(l levels, step float64, samples []float64) crossings {
	d := newDetector(l, step, &room{mostCrossings})
	for i, v := range samples {
		d.take(float64(i)*step, v)
	}
	return d.out
}

// A signal that wavers about its middle crosses half-way from its first passage
// to its last, here 1.5, 2.5 and 3.5, and once.
func TestWaveringCrossing(t *testing.T) {
	l := levels{kind: Square, low: -1, high: 1, least: -1, most: 1}
	out := detect(l, 1, []float64{-1, -0.1, 0.1, -0.1, 0.1, 1, 0.1, -0.3, -1})
	require.Len(t, out.rising, 1)
	require.InDelta(t, 2.5, out.rising[0], rounding)
	require.Len(t, out.falling, 1)
	require.InDelta(t, 6.25, out.falling[0], rounding)
	// what does not reach the other threshold is no crossing
	out = detect(l, 1, []float64{-1, 0.1, -1, 0.1, -0.2, -1, 1})
	require.Len(t, out.rising, 1)
	require.InDelta(t, 5.5, out.rising[0], rounding)
}

// A crossing within a hole of more than five steps is lost, and the next is not.
func TestCrossingInAHole(t *testing.T) {
	l := levels{kind: Square, low: 0, high: 2, least: 0, most: 2}
	lost := math.NaN()
	out := detect(l, 1, []float64{0, 0, lost, lost, lost, lost, 2, 2, 0})
	require.Equal(t, []float64{3.5}, out.rising) // over five steps, half-way
	require.Equal(t, []float64{7.5}, out.falling)
	out = detect(l, 1, []float64{0, 0, lost, lost, lost, lost, lost, 2, 2, 0})
	require.Empty(t, out.rising)
	require.Equal(t, []float64{8.5}, out.falling)
}

// A coil's signal grows with speed: after a pause at a tenth of what it was, its
// teeth are found again.
func TestCoilAfterAPause(t *testing.T) {
	var samples []float64
	swing := func(height float64, teeth int) {
		for i := range 50 * teeth {
			samples = append(samples, height*math.Sin(2*math.Pi*float64(i)/50))
		}
	}
	swing(10, 20)
	swing(0, 30)
	swing(1, 20)
	out := detect(levels{kind: Inductive, swing: 10, least: -10, most: 10}, 1e-3, samples)
	slow := 0
	for _, at := range out.falling {
		if at > 2.5 {
			slow++
		}
	}
	require.GreaterOrEqual(t, slow, 19)
	require.InDelta(t, 40, len(out.falling), 2)
}

// Passings either side of the cycle's seam are one edge, with its mean there.
func TestGroupOverTheSeam(t *testing.T) {
	var all []sighting
	for _, deg := range []float64{719, 0.5, 1, 720 + 719.5, 300} {
		all = append(all, sighting{channel: 1, rising: true, angle: geometry.Angle(deg) * geometry.Degree})
	}
	got := groups(all, cycle)
	require.Len(t, got, 2)
	require.InDelta(t, 0, math.Remainder(got[0].mean(cycle).Degrees(), 720), 1e-9)
	require.InDelta(t, 300, got[1].mean(cycle).Degrees(), 1e-9)
	// about a mean of 0: 1, 0.5, 1 and 0.5 deg off
	require.InDelta(t, math.Sqrt(2.5/3), got[0].deviation().Degrees(), 1e-9)
}

// The step is the time of all rows over the steps between them.
func TestStep(t *testing.T) {
	s, err := Look(strings.NewReader("ms,V,V\n10,1,2\n20,2,1\n30,1,2\n50,2,1\n"), Request{Time: "1", Crank: "2", Cams: []string{"3"}})
	require.NoError(t, err)
	require.InDelta(t, 0.04/3, s.step, rounding)
	require.InDelta(t, 0.01, s.start, rounding)
}

// A sketch keeps one sample of each block, in order, and as many at each place of
// it: an eighth of them at each of 8 places, within four standard deviations (of
// counts, a square root).
func TestSketchIsInStepWithNothing(t *testing.T) {
	var k sketch
	const samples = 1 << 20
	for i := range samples {
		k.take(float64(i))
	}
	require.GreaterOrEqual(t, len(k.kept), mostKept/2)
	var late [8]int
	for i, v := range k.kept {
		if i > 0 {
			require.Greater(t, v, k.kept[i-1])
			require.LessOrEqual(t, v-k.kept[i-1], float64(2*k.block))
		}
		if v > samples/2 {
			late[int(v)%8]++
		}
	}
	expected := float64(samples/2/k.block) / 8
	for place, n := range late {
		require.InDelta(t, expected, float64(n), 4*math.Sqrt(expected), "place %d", place)
	}
}
