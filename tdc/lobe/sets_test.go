package lobe_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
	"evendrop/tdc/mark"
)

// inSets is a lobe read in so many sets, the wheel moved on the crank between them, and what
// became of it as a mark.
func inSets(rng *rand.Rand, kind benchtest.CurveKind, s lobetest.Shape, sets int, moved float64, slack geometry.Angle) (mark.Judged, error) {
	p := benchtest.Protractor(0.5, 0.25)
	setup := evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: p, Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
	b := benchtest.Drawn(rng, setup)
	session := benchtest.Session{Setup: setup, Layout: benchtest.Balanced(2, 24), Curve: kind.Draw(rng, p, b.Start/benchtest.Degree)}
	l := lobe.Lobe{Name: "inlet", On: "inlet cam", Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(), Limit: deg, HasLimit: true, Slack: slack}
	c := lobetest.Drawn(rng, s, l)
	l.Card = cardOf(c, 1, moved)
	var piston []evidence.Reading
	lobes := make([]lobe.Lobe, sets)
	for set := 1; set <= sets; set++ {
		for _, r := range b.ReadIn(rng, session) {
			r.Set = set
			piston = append(piston, r)
		}
		l.Set, l.Readings = set, c.Readings(rng, b, session, l.Gauge, c.Planned(rng, 1))
		all := len(piston)
		l.After = &all // it is read after the piston, so that nothing has to be read again
		lobes[set-1] = l
		b.Start += (40 + 130*rng.Float64()) * benchtest.Degree
		b.Wheel, b.Phase = float64(p.OffCentre)*rng.Float64(), 2*math.Pi*rng.Float64() // it sits elsewhere then
	}
	result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: piston})
	if err != nil {
		return mark.Judged{}, err
	}
	var marks []mark.Mark
	for _, l := range lobes {
		of, _ := result.OfSet(l.Set)
		k, _ := lobe.Measure(p, lobe.From{Result: of}, l).Mark()
		marks = append(marks, k)
	}
	judged, err := mark.Judge(setup, result, mark.Drive{Layout: "two cams"}, marks)
	if err != nil || len(judged) != 1 {
		return mark.Judged{}, fmt.Errorf("%d marks: %w", len(judged), err)
	}
	return judged[0], nil
}

// A lobe read in several sets is one mark, their mean by inverse variance: it holds how far
// the cam moved in 93 % of jobs at least, on protractors of every kind, and is known the
// better the more sets there are. With -full this is a table of testdata/honesty/lobes.txt.
func TestLobeInSets(t *testing.T) {
	jobs, kinds := run.Count(90, 2000), benchtest.CurveKinds()
	var table strings.Builder
	table.WriteString(run.Head("A lobe read in sets, 0.5/0.25, shift held in %, over every kind of protractor and shape. Aim: 93 at least.", jobs))
	before := 0.0
	for sets := 1; sets <= 3; sets++ {
		got, apart := newTally(), 0
		run.Each(5000+sets, jobs, func(i int, rng *rand.Rand) {
			moved := benchtest.Within(rng, 3)
			j, err := inSets(rng, kinds[i%len(kinds)], lobetest.Shapes[i%3], sets, moved, geometry.Angle(i%2)*deg)
			got.Lock()
			defer got.Unlock()
			if err != nil {
				t.Error(err)
				return
			}
			got.jobs++
			got.count("shift", j.Angle, j.Expanded, moved)
			for _, n := range j.Notes {
				if _, is := n.(finding.SetsApart); is {
					apart++
				}
			}
		})
		mean := got.wide["shift"] / float64(got.jobs)
		fmt.Fprintf(&table, "%d sets: %.1f, U %.3f deg, said to be apart %.1f\n", sets, 100*got.share("shift"), mean, 100*float64(apart)/float64(got.jobs))
		require.Greater(t, got.share("shift"), leastHeld-benchtest.Chance(leastHeld, got.jobs), "%d sets", sets)
		require.LessOrEqual(t, float64(apart)/float64(got.jobs), 0.01+benchtest.Chance(0.01, got.jobs))
		if sets > 1 { // the lobe's own scatter is that of each set, the smooth error of the protractor shared in part
			require.Less(t, mean, before*[]float64{2: 0.9, 3: 0.97}[sets])
		}
		before = mean
	}
	t.Log("\n" + table.String())
}

// What is the same in every set is known no better for being met again: the slack of a drive.
func TestSlackInSets(t *testing.T) {
	expanded := func(sets int, slack geometry.Angle) geometry.Angle {
		j, err := inSets(rand.New(rand.NewPCG(3, 4)), benchtest.IndependentErrors, lobetest.Shapes[0], sets, 0, slack)
		require.NoError(t, err)
		return j.Expanded
	}
	const half = 0.95 * 6 * deg / 4 // 95 % of what 6 deg of slack leave the middle, either way (JCGM100 4.3.7)
	require.Greater(t, expanded(3, 6*deg), half)
	require.Less(t, expanded(3, 0), 0.3*half)
}

// Each set weighs opening and closing by slopes of its own, which a card of one lobe alone
// cannot: the mean is of how late each set has the cam, and the sets' places are those of the
// first one's weights. A set that lies apart is named.
func TestLobeOfTwoSlopes(t *testing.T) {
	p := evidence.DefaultProtractor()
	from := tdcAt(t, 2.4, p)
	setup := evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: p, Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
	from.Set, from.Earlier = 2, nil
	first := from.Result
	first.Set = 1
	from.Earlier = []tdc.Result{first}
	of := func(set int, read []lobe.Reading) mark.Mark {
		r, ok := from.OfSet(set)
		require.True(t, ok)
		m := lobe.Measure(p, lobe.From{Result: r}, lobe.Lobe{Name: "inlet", On: "inlet cam", Valve: lobe.Inlet, Cylinder: 1, Set: set, Gauge: lobe.DefaultGauge(),
			Card: lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg}, Readings: read})
		k, says := m.Mark()
		require.True(t, says)
		return k
	}
	even := rows(2.5, 0.76, 7.5, 1.03, 11.5, 1.30, 61, 6.03, 127.5, 9.20, 194, 5.98, 243, 1.31, 247.5, 1.00, 251.5, 0.76)
	steep := rows(2.5, 0.5, 7.5, 1.05, 11.5, 1.6, 61, 6.03, 127.5, 9.20, 194, 5.98, 243, 1.31, 247.5, 1.00, 251.5, 0.76)
	a, b := of(1, even), of(2, steep)
	require.Greater(t, sizeOf(a.ShouldBe-b.ShouldBe), 10*deg) // else they are weighed alike
	judge := func(marks ...mark.Mark) mark.Judged {
		judged, err := mark.Judge(setup, from.Result, mark.Drive{Layout: "two cams"}, marks)
		require.NoError(t, err)
		require.Len(t, judged, 1)
		return judged[0]
	}
	one, two, both := judge(a), judge(b), judge(b, a)
	low, high := min(one.Angle, two.Angle), max(one.Angle, two.Angle)
	require.Greater(t, both.Angle, low)
	require.Less(t, both.Angle, high)
	require.Len(t, both.Sets, 2)
	require.Equal(t, 1, both.Sets[0].Set)
	require.InDelta(t, one.Angle.Degrees(), (both.Sets[0].Angle - both.Nominal).Degrees(), 1e-9)
	require.Empty(t, both.Notes)

	for i := range even {
		even[i].Angle += 5 * deg
	}
	note, is := judge(of(1, even), b).Notes[0].(finding.SetsApart)
	require.True(t, is)
	require.Contains(t, []int{1, 2}, note.Set)

	healthy := a // held against something else than the other set, with which it is not averaged
	of1 := *a.Lobe
	of1.Healthy = true
	healthy.Lobe = &of1
	require.Len(t, judge(healthy, b).Sets, 1)
}

func sizeOf(a geometry.Angle) geometry.Angle { return max(a, -a) }
