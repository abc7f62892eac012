package signal

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

const rounding = 1e-12 // of times of some seconds

func detect(l Levels, step float64, samples []float64) Crossings {
	d := NewDetector(l, step, &Room{Left: 1000})
	for i, v := range samples {
		d.Take(float64(i)*step, v)
	}
	out, _ := d.Done()
	return out
}

// A signal that wavers about its middle crosses half-way from its first passage
// to its last, here 1.5, 2.5 and 3.5, and once.
func TestWaveringCrossing(t *testing.T) {
	l := Levels{Kind: Square, low: -1, high: 1, Least: -1, Most: 1}
	out := detect(l, 1, []float64{-1, -0.1, 0.1, -0.1, 0.1, 1, 0.1, -0.3, -1})
	require.Len(t, out.Rising, 1)
	require.InDelta(t, 2.5, out.Rising[0], rounding)
	require.Len(t, out.Falling, 1)
	require.InDelta(t, 6.25, out.Falling[0], rounding)
	// what does not reach the other threshold is no crossing
	out = detect(l, 1, []float64{-1, 0.1, -1, 0.1, -0.2, -1, 1})
	require.Len(t, out.Rising, 1)
	require.InDelta(t, 5.5, out.Rising[0], rounding)
}

// A crossing within a hole of more than five steps is lost, and the next is not.
func TestCrossingInAHole(t *testing.T) {
	l := Levels{Kind: Square, low: 0, high: 2, Least: 0, Most: 2}
	lost := math.NaN()
	out := detect(l, 1, []float64{0, 0, lost, lost, lost, lost, 2, 2, 0})
	require.Equal(t, []float64{3.5}, out.Rising) // over five steps, half-way
	require.Equal(t, []float64{7.5}, out.Falling)
	out = detect(l, 1, []float64{0, 0, lost, lost, lost, lost, lost, 2, 2, 0})
	require.Empty(t, out.Rising)
	require.Equal(t, []float64{8.5}, out.Falling)
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
	out := detect(Levels{Kind: Inductive, swing: 10, Least: -10, Most: 10}, 1e-3, samples)
	slow := 0
	for _, at := range out.Falling {
		if at > 2.5 {
			slow++
		}
	}
	require.GreaterOrEqual(t, slow, 19)
	require.InDelta(t, 40, len(out.Falling), 2)
}
