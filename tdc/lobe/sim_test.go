package lobe_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
)

var run = benchtest.Flags(flag.CommandLine)

// tally is how often what was asked held the truth.
type tally struct {
	sync.Mutex
	held map[string]int
	jobs int
}

func (t *tally) count(what string, found geometry.Angle, expanded geometry.Angle, truth float64) {
	if math.Abs(math.Remainder(found.Degrees()-truth, 720)) <= expanded.Degrees() {
		t.held[what]++
	}
}

var asked = []string{"opens", "closes", "centre", "duration", "shift"}

// Opening, closing, centre, duration and shift hold the truth in 93 to 98 % of jobs
// (lobes.md 4; design.md 8), on protractors whose error is one curve, with tilt, run-out,
// slack and lost lift drawn from what is stated.
func TestLobeCoverage(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates jobs")
	}
	jobs := run.Count(30, 2000)
	kinds := benchtest.CurveKinds()
	if !run.Full {
		kinds = []benchtest.CurveKind{kinds[0], kinds[4], kinds[6], kinds[7]}
	}
	stream := 0
	var table strings.Builder
	pooled := &tally{held: map[string]int{}}
	for _, s := range lobetest.Shapes {
		for _, instruments := range [][2]float64{{0.5, 0.25}, {0.1, 0.1}} {
			p := benchtest.Protractor(instruments[0], instruments[1])
			for _, kind := range kinds {
				for _, checking := range []float64{1, 1.27, 4.5} {
					stream++
					got := &tally{held: map[string]int{}}
					run.Each(stream, jobs, func(_ int, rng *rand.Rand) { coverageJob(rng, got, s, p, kind, checking) })
					fmt.Fprintf(&table, "%-10s %.1f/%.2f %-12s %.2f mm:", s.Name, instruments[0], instruments[1], kind.Name, checking)
					for _, what := range asked {
						fmt.Fprintf(&table, " %s %.1f", what, 100*float64(got.held[what])/float64(got.jobs))
						pooled.held[what] += got.held[what]
					}
					pooled.jobs += got.jobs
					fmt.Fprintln(&table)
				}
			}
		}
	}
	t.Log(run.Head("Lobes", jobs) + table.String())
	for _, what := range asked {
		share := float64(pooled.held[what]) / float64(pooled.jobs)
		t.Logf("%s: %.1f %% of %d", what, 100*share, pooled.jobs)
		require.Greater(t, share, 0.93, what)
		require.Less(t, share, 0.98, what)
	}
}

func coverageJob(rng *rand.Rand, got *tally, s lobetest.Shape, p evidence.Protractor, kind benchtest.CurveKind, checking float64) {
	l := lobe.Lobe{Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(), Slack: geometry.Angle(rng.IntN(2)) * deg}
	c := lobetest.Drawn(rng, s, l)
	b, session, from, err := lobetest.Bench(rng, kind, p)
	if err != nil {
		return
	}
	truth := func(side float64) float64 { return c.Event(checking, side) }
	moved := benchtest.Within(rng, 3)
	l.Card = lobe.Card{Lift: geometry.Length(checking), HasEvents: true,
		Opens: geometry.Angle(truth(-1)-moved) * deg, Closes: geometry.Angle(truth(1)-moved) * deg}
	l.Readings = c.Readings(rng, b, session, l.Gauge, c.Planned(rng, checking))
	m := lobe.Measure(p, from, l)
	got.Lock()
	defer got.Unlock()
	got.jobs++
	if m.Events == nil {
		return
	}
	e := m.Events
	got.count("opens", e.Opens.Angle, e.Opens.Expanded, truth(-1))
	got.count("closes", e.Closes.Angle, e.Closes.Expanded, truth(1))
	got.count("centre", e.Centre.Angle, e.Centre.Expanded, (truth(-1)+truth(1))/2)
	got.count("duration", e.Duration.Angle, e.Duration.Expanded, truth(1)-truth(-1))
	got.count("shift", m.Shift.Angle, m.Shift.Expanded, moved)
}

// A cam that moved by 2 deg, lift lost to lash or wear by 0.15 mm and a healthy lobe are
// told apart: the issue asks for 98 %. A card for another lobe of the same cam shows as
// lost or gained lift.
func TestMovedToldFromLash(t *testing.T) {
	jobs := run.Count(150, 2000)
	kinds := benchtest.CurveKinds()
	for stream, fault := range []struct {
		name        string
		moved, lost float64
		told        string
	}{{"moved late", 2, 0, "moved"}, {"moved early", -2, 0, "moved"}, {"lash", 0, 0.15, "lift"}, {"a card of less lift", 0, -0.15, "lift"}, {"healthy", 0, 0, ""}} {
		right, of := 0, 0
		var all sync.Mutex
		run.Each(1000+stream, jobs, func(i int, rng *rand.Rand) {
			s := lobetest.Shapes[i%len(lobetest.Shapes)]
			p := benchtest.Protractor(0.5, 0.25)
			b, session, from, err := lobetest.Bench(rng, kinds[i%len(kinds)], p)
			if err != nil {
				return
			}
			l := lobe.Lobe{Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge()}
			c := lobetest.Drawn(rng, s, l)
			l.Card = lobe.Card{Lift: 1, HasEvents: true, Opens: geometry.Angle(c.Event(1, -1)-fault.moved) * deg, Closes: geometry.Angle(c.Event(1, 1)-fault.moved) * deg}
			c.Lost = fault.lost
			l.Readings = c.Readings(rng, b, session, l.Gauge, c.Planned(rng, 1))
			m := lobe.Measure(p, from, l)
			all.Lock()
			defer all.Unlock()
			of++
			if toldAs(m) == fault.told {
				right++
			}
		})
		share := float64(right) / float64(of)
		t.Logf("%s: told in %.1f %% of %d", fault.name, 100*share, of)
		require.Greater(t, share, 0.98-benchtest.Chance(0.98, of), fault.name)
	}
}

// toldAs is what a reader makes of shift and offset of lift: a fault is half of the least
// that is looked for, or more.
func toldAs(m lobe.Measured) string {
	moved, lift := math.Abs(m.Shift.Angle.Degrees()) > 1, math.Abs(m.Shift.Offset.Value) > 0.075
	switch {
	case moved && !lift:
		return "moved"
	case lift && !moved:
		return "lift"
	case moved:
		return "both"
	}
	return ""
}

// A lobe of unlike flanks, here 150 and 172 deg, is told in every job, and an even one
// called so in at most 3 % (lobes.md 4); the shift of either is none of it.
func TestLeanTold(t *testing.T) {
	jobs := run.Count(200, 2000)
	kinds := benchtest.CurveKinds()
	for stream, c := range []struct {
		shape       lobetest.Shape
		least, most float64
	}{{lobetest.Shapes[0], 0, 0.03}, {lobetest.Shapes[1], 0.99, 1}} {
		leans, shifted, of := 0, 0, 0
		var doubt float64
		var all sync.Mutex
		run.Each(3000+stream, jobs, func(i int, rng *rand.Rand) {
			p := benchtest.Protractor(0.5, 0.25)
			l := lobe.Lobe{Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge()}
			cam := lobetest.Drawn(rng, c.shape, l)
			l.Card = lobe.Card{Lift: 1, HasEvents: true, Opens: geometry.Angle(cam.Event(1, -1)) * deg, Closes: geometry.Angle(cam.Event(1, 1)) * deg}
			b, session, from, err := lobetest.Bench(rng, kinds[i%len(kinds)], p)
			if err != nil {
				return
			}
			l.Readings = cam.Readings(rng, b, session, l.Gauge, cam.Planned(rng, 1))
			m := lobe.Measure(p, from, l)
			all.Lock()
			defer all.Unlock()
			of++
			doubt += m.Lean.Lambda.Uncertainty
			if m.Lean.Leans() {
				leans++
			}
			if math.Abs(m.Shift.Angle.Degrees()) > 1 {
				shifted++
			}
		})
		share := float64(leans) / float64(of)
		t.Logf("%s: leans in %.1f %% of %d, lambda to %.4f", c.shape.Name, 100*share, of, doubt/float64(of))
		require.LessOrEqual(t, share, c.most+benchtest.Chance(c.most, of))
		require.GreaterOrEqual(t, share, c.least-benchtest.Chance(c.least, of))
		require.Zero(t, shifted)
	}
}

// Two lobes of one cylinder, read on one protractor: separation and overlap hold the truth
// in 93 to 98 % of jobs pooled over the kinds of protractor, and so does how much later one
// cam is than the other, by what they share.
func TestPairCoverage(t *testing.T) {
	jobs := run.Count(400, 4000)
	kinds := benchtest.CurveKinds()
	got := &tally{held: map[string]int{}}
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
		square := math.Pow(float64(m[1].Shift.Uncertainty), 2) + math.Pow(float64(m[0].Shift.Uncertainty), 2) - 2*m[0].Shift.Covariance(m[1].Shift.Quantity)
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
