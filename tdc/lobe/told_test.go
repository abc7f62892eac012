package lobe_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
	"evendrop/tdc/mark"
)

// fault is what is wrong with a lobe or its card, and what should be said.
type fault struct {
	name       string
	shapes     []lobetest.Shape
	moved      float64 // crank deg, late
	lost, worn float64 // mm all over the lobe, of the nose
	wider      float64 // crank deg that the card opens earlier and closes later
	lift       float64 // mm that the card's lift is greater than it says
	told       string
	least      float64 // share of jobs that should be told so
}

// faults is those that the issue asks to be told apart, 2 deg or 0.15 mm, and healthy
// lobes, of which nothing should be said in 99 of 100.
func faults() []fault {
	all, leaning := lobetest.Shapes, lobetest.Shapes[1:2]
	return []fault{
		{name: "moved 2 deg late", shapes: all, moved: 2, told: "moved", least: 0.98},
		{name: "moved 2 deg early", shapes: all, moved: -2, told: "moved", least: 0.98},
		{name: "lash or wear 0.15 mm", shapes: all, lost: 0.15, told: "lift", least: 0.98},
		{name: "lash set 0.15 mm small", shapes: all, lost: -0.15, told: "lift", least: 0.98},
		{name: "moved and lash", shapes: all, moved: 2, lost: 0.15, told: "moved, lift", least: 0.98},
		{name: "nose worn 0.6 mm", shapes: all, worn: 0.6, told: "top", least: 0.98},
		{name: "card of a wider lobe", shapes: all, wider: 3, told: "lift", least: 0.98},
		{name: "card of another lift", shapes: all, lift: 0.15, told: "lift", least: 0.98},
		{name: "healthy", shapes: all, told: "", least: 0.99},
		{name: "healthy, leaning", shapes: leaning, told: "", least: 0.99},
	}
}

// A cam that moved by 2 deg, lift lost to lash or wear by 0.15 mm, a card that is another's
// and a healthy lobe are told apart, by what the program says, in 98 % of jobs: a limit of
// 1 deg, and what it finds of lift and top. A healthy lobe, and one that leans, is called
// faulty in at most 1 %. With -full this is the second table of testdata/honesty/lobes.txt.
func TestFaultsToldApart(t *testing.T) {
	jobs := run.Count(40, 1000)
	kinds := benchtest.CurveKinds()
	var table strings.Builder
	table.WriteString(run.Head("Faults of lobes, told by limit and findings, in %, over every kind of protractor. Aim: 98; healthy ones 99.", jobs))
	for _, wheel := range [][2]float64{{0.5, 0.25}, {0.1, 0.1}} {
		for stream, f := range faults() {
			said, of, levels := map[string]int{}, 0, 0
			var all sync.Mutex
			run.Each(1000+stream, jobs, func(i int, rng *rand.Rand) {
				m, ok := f.job(rng, f.shapes[i%len(f.shapes)], kinds[i%len(kinds)], wheel)
				if !ok {
					return
				}
				all.Lock()
				defer all.Unlock()
				of++
				said[toldAs(m)]++
				if saidOf[finding.LevelApart](m) {
					levels++
				}
			})
			share := float64(said[f.told]) / float64(of)
			fmt.Fprintf(&table, "%-24s %.1f/%.2f  %5.1f  aim %2.0f  %v, and one level to be read again %d\n", f.name, wheel[0], wheel[1], 100*share, 100*f.least, said, levels)
			if share <= f.least-benchtest.Chance(f.least, of) {
				t.Errorf("%s: told in %.1f %% of %d", f.name, 100*share, of)
			}
		}
	}
	t.Log("\n" + table.String())
}

func (f fault) job(rng *rand.Rand, s lobetest.Shape, kind benchtest.CurveKind, wheel [2]float64) (m lobe.Measured, ok bool) {
	p := benchtest.Protractor(wheel[0], wheel[1])
	b, session, from, err := lobetest.Bench(rng, kind, p)
	if err != nil {
		return m, false
	}
	l := lobe.Lobe{Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(), Limit: deg, HasLimit: true}
	c := lobetest.Drawn(rng, s, l)
	l.Card = cardOf(c, geometry.Length(1+f.lift), f.moved)
	l.Card.Lift, l.Card.Top = 1, geometry.Length(c.Top)
	l.Card.Opens -= geometry.Angle(f.wider) * deg
	l.Card.Closes += geometry.Angle(f.wider) * deg
	c.Lost, c.Worn = f.lost, f.worn
	l.Readings = c.Readings(rng, b, session, l.Gauge, c.Planned(rng, 1))
	m = lobe.Measure(p, from, l)
	return m, m.Events != nil
}

// toldAs is what is said of a lobe that a reader would act on.
func toldAs(m lobe.Measured) string {
	var said []string
	if mark.Decide(m.Shift.Angle, m.Shift.Expanded, m.Limit) == mark.Outside {
		said = append(said, "moved")
	}
	for _, f := range m.Findings {
		switch f.(type) {
		case finding.LiftOffset:
			said = append(said, "lift")
		case finding.TopOff:
			said = append(said, "top")
		case finding.LobeLeans, finding.LevelApart: // nothing wrong with the lobe
		default:
			said = append(said, f.Kind())
		}
	}
	return strings.Join(said, ", ")
}

// saidOf tells whether a finding of a kind was made.
func saidOf[F finding.Finding](m lobe.Measured) bool {
	return slices.ContainsFunc(m.Findings, func(f finding.Finding) bool { _, is := f.(F); return is })
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
			m, ok := fault{}.job(rng, c.shape, kinds[i%len(kinds)], [2]float64{0.5, 0.25})
			if !ok {
				return
			}
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
