package tdc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// alone is TDC by the curve fit, nothing having moved: what trials draw.
func alone(r tdc.Result) gum.Estimate {
	i := slices.IndexFunc(r.Methods, func(m tdc.Method) bool { return m.Name == tdc.CurveFit })
	return r.Methods[i].Estimate
}

// Trials of a job whose answer is nearly linear in all that it rests on say what
// the first order says: the standard uncertainty, and the 95 % interval.
func TestTrialsAgreeWithFirstOrder(t *testing.T) {
	shorter := 0 // of draws the two intervals are one by chance only
	defer func() { require.Greater(t, shorter, 5) }()
	for _, j := range scipyJobs(t) {
		t.Run(j.Name, func(t *testing.T) {
			r, err := tdc.Find(j.setup(), evidence.Cylinder{Number: 1, Readings: j.readings()})
			require.NoError(t, err)
			const n = 6_000
			s := r.Trials(n, 11, nil)
			// a deviation of n draws strays by u/sqrt(2n), a percent; the second
			// order adds up to two percent in the jobs read far down
			require.InEpsilon(t, alone(r).Uncertainty.Degrees(), s.Uncertainty.Degrees(), 4/math.Sqrt(2*n)+0.02)
			require.InDelta(t, 0, (s.Estimate - alone(r).Angle).Signed().Degrees(), 0.1*alone(r).Uncertainty.Degrees())
			half := (s.Symmetric[1] - s.Symmetric[0]).Degrees() / 2
			// the greatest range keeps its shape and the others count as normal
			require.InEpsilon(t, alone(r).Expanded.Degrees(), half, 0.04)
			require.LessOrEqual(t, s.Shortest[1]-s.Shortest[0], s.Symmetric[1]-s.Symmetric[0])
			if s.Shortest[1]-s.Shortest[0] < s.Symmetric[1]-s.Symmetric[0] {
				shorter++
			}
		})
	}
}

// Readings at one line of the protractor share its error there: trials draw one for all of them.
func TestTrialsShareTheLines(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Protractor.Step, setup.Protractor.Error = degrees(0.1), degrees(1)
	var at []float64
	for i := range 24 {
		at = append(at, []float64{-27, -22, 22, 27}[i%4])
	}
	r := find(t, setup, clean(86, 146, 3, at))
	s := r.Trials(6_000, 11, nil)
	require.InEpsilon(t, alone(r).Uncertainty.Degrees(), s.Uncertainty.Degrees(), 0.04)
}

// A suspect reading has no more part in the trials than in the answer.
func TestTrialsLeaveSuspectsOut(t *testing.T) {
	read := exerciseA()
	read[4].Depth += 0.5
	r := find(t, carEngine(86, 146), read)
	s := r.Trials(6_000, 11, nil)
	require.InEpsilon(t, alone(r).Uncertainty.Degrees(), s.Uncertainty.Degrees(), 0.04)
	require.InDelta(t, alone(r).Angle.Degrees(), s.Estimate.Degrees(), 0.1*alone(r).Uncertainty.Degrees())
}

// Scatter beyond the instruments widens the trials as it does the answer.
func TestTrialsWiden(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Protractor.Step, setup.Protractor.Error = degrees(0.01), degrees(0.01)
	setup.Gauge.Step, setup.Gauge.Error = 0.001, 0.001
	r := find(t, setup, exerciseA())
	require.False(t, math.IsInf(alone(r).DegreesOfFreedom, 1))
	s := r.Trials(6_000, 11, nil)
	require.InEpsilon(t, alone(r).Expanded.Degrees(), (s.Symmetric[1]-s.Symmetric[0]).Degrees()/2, 0.08)
}

func BenchmarkTrials(b *testing.B) {
	j := scipyJobs(b)[0]
	r, err := tdc.Find(j.setup(), evidence.Cylinder{Number: 1, Readings: j.readings()})
	require.NoError(b, err)
	require.Len(b, r.Readings, 24)
	b.ReportAllocs()
	b.ResetTimer()
	r.Trials(b.N, 1, nil)
}

// The answer about so many readings, from readings to warnings: such as fit, and such as no
// piston can have shown.
func BenchmarkFind(b *testing.B) {
	for _, n := range []int{24, 200, 3000} {
		for name, off := range map[string]float64{"fit": 0, "none": 1} {
			b.Run(fmt.Sprintf("%d/%s", n, name), func(b *testing.B) {
				setup, readings := manyRead(n, off)
				b.ReportAllocs()
				for b.Loop() {
					if _, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: readings}); err != nil && off == 0 {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// manyRead is readings on both flanks, in order, each off by as much as its instruments make
// it, and the depth by up to so many mm besides.
func manyRead(n int, off float64) (evidence.Setup, []evidence.Reading) {
	rng := rand.New(rand.NewPCG(1, uint64(n)))
	var at []float64
	for i := range n {
		at = append(at, -33+66*float64(i)/float64(n-1))
	}
	setup, readings := carEngine(86, 146), clean(86, 146, 3, at)
	for i := range readings {
		readings[i].Angle += geometry.Angle(rng.NormFloat64()) * setup.Protractor.Uncertainty()
		readings[i].Depth += geometry.Length(rng.NormFloat64())*setup.Gauge.Uncertainty() + geometry.Length(benchtest.Within(rng, off))
	}
	return setup, readings
}
