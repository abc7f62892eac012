package lobe_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
)

var run = benchtest.Flags(flag.CommandLine)

// tally is how often what was asked held the truth.
type tally struct {
	sync.Mutex
	held map[string]int
	wide map[string]float64 // sums of expanded uncertainties, deg
	jobs int
}

func newTally() *tally { return &tally{held: map[string]int{}, wide: map[string]float64{}} }

func (t *tally) count(what string, found geometry.Angle, expanded geometry.Angle, truth float64) {
	if math.Abs(math.Remainder(found.Degrees()-truth, 720)) <= expanded.Degrees() {
		t.held[what]++
	}
	t.wide[what] += expanded.Degrees()
}

// Two lobes of one cylinder, read on one protractor: separation and overlap hold the truth
// in 93 to 98 % of jobs pooled over the kinds of protractor, and so does how much later one
// cam is than the other, by what they share.
func TestPairCoverage(t *testing.T) {
	jobs := run.Count(400, 4000)
	kinds := benchtest.CurveKinds()
	got := newTally()
	run.Each(4000, jobs, func(i int, rng *rand.Rand) {
		p := benchtest.Protractor(0.5, 0.25)
		b, session, from, err := lobetest.Bench(rng, kinds[i%len(kinds)], p)
		if err != nil {
			return
		}
		var m [2]lobe.Measured
		var cam [2]lobetest.Cam
		for k, valve := range []lobe.Valve{lobe.Exhaust, lobe.Inlet} {
			l := lobe.Lobe{Valve: valve, Cylinder: 1, Gauge: lobe.DefaultGauge(), Card: lobe.Card{Lift: 1, HasEvents: true}}
			cam[k] = lobetest.Drawn(rng, lobetest.Shapes[i%3], l)
			if valve == lobe.Exhaust {
				cam[k].Nose -= 215
			}
			l.Card.Opens, l.Card.Closes = geometry.Angle(cam[k].Event(1, -1))*deg, geometry.Angle(cam[k].Event(1, 1))*deg
			l.Readings = cam[k].Readings(rng, b, session, l.Gauge, cam[k].Planned(rng, 1))
			m[k] = lobe.Measure(p, from, l)
		}
		pair, ok := lobe.Paired(m[0], m[1])
		if !ok {
			return
		}
		centre := func(c lobetest.Cam) float64 { return (c.Event(1, -1) + c.Event(1, 1)) / 2 }
		apart := m[1].Shift.Angle - m[0].Shift.Angle
		square := math.Pow(float64(m[1].Shift.Uncertainty), 2) + math.Pow(float64(m[0].Shift.Uncertainty), 2) - 2*m[0].Shift.Seen.Covariance(m[1].Shift.Seen)
		got.Lock()
		defer got.Unlock()
		got.jobs++
		got.count("separation", pair.Separation.Angle, pair.Separation.Expanded, (centre(cam[1])-centre(cam[0]))/2)
		got.count("overlap", pair.Overlap.Angle, pair.Overlap.Expanded, cam[0].Event(1, 1)-cam[1].Event(1, -1))
		got.count("apart", apart, geometry.Angle(1.96*math.Sqrt(square)), 0)
	})
	require.Greater(t, got.jobs, jobs*98/100)
	for what, held := range got.held {
		share := float64(held) / float64(got.jobs)
		t.Logf("%s: %.1f %% of %d", what, 100*share, got.jobs)
		require.Greater(t, share, 0.93-benchtest.Chance(0.93, got.jobs), what)
		require.Less(t, share, 0.98+benchtest.Chance(0.98, got.jobs), what)
	}
}
