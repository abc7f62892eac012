package tdc_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

func findCylinder(t *testing.T, setup evidence.Setup, c evidence.Cylinder) tdc.Result {
	t.Helper()
	result, err := tdc.Find(setup, c)
	require.NoError(t, err)
	return result
}

// A stop alone: half-way between its contacts, across the wrap too.
func TestOneStop(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Engine.KnownTo.Offset, setup.Protractor.OffCentre = 0, 0
	r := findCylinder(t, setup, evidence.Cylinder{Number: 1, Stops: []evidence.Stop{{Rising: degrees(348.6), Falling: degrees(11.8)}}})
	require.InDelta(t, 0.2, r.TDC.Angle.Degrees(), 1e-9)
	require.InDelta(t, math.Hypot(0.5/math.Sqrt(24), 0.25/math.Sqrt(6)), r.AgreeTo.Uncertainty.Degrees(), 1e-9)
	require.InDelta(t, math.Hypot(r.AgreeTo.Uncertainty.Degrees(), 0.25/math.Sqrt(3)), r.TDC.Uncertainty.Degrees(), 1e-9) // and the error where TDC comes
	require.Len(t, r.Methods, 1)
	require.Equal(t, curve.StopContacts, r.Methods[0].Name)
	require.True(t, math.IsNaN(r.CrownDepth.Value))
	require.Empty(t, r.Findings)
}

// A deep stop on an engine of known offset: the midpoint of equal drop lies
// atan(e/(top - d)) - atan(e/top) after TDC (KMODDL). Contacts found by bisection
// on a bench with its own kinematics.
func TestDeepStopWithOffset(t *testing.T) {
	setup := carEngine(84, 138)
	setup.Engine.BoreOffset, setup.Engine.OffsetStated = 8, true
	setup.Engine.KnownTo.Offset, setup.Protractor.OffCentre = 0, 0
	b := benchtest.Bench{Throw: 42, Rod: 138, Across: 8, Gauge: 1, Radius: 100}.Settled()
	for _, depth := range []float64{1, 5, 10, 20} {
		contact := func(sign float64) geometry.Angle {
			low, high := 0.0, 1.5
			for range 60 {
				if middle := (low + high) / 2; b.Drop(sign*middle) < depth {
					low = middle
				} else {
					high = middle
				}
			}
			return geometry.Angle(sign*low) + degrees(33)
		}
		stop := evidence.Stop{Rising: contact(-1), Falling: contact(1)}
		r := findCylinder(t, setup, evidence.Cylinder{Stops: []evidence.Stop{stop}})
		require.InDelta(t, 33, r.TDC.Angle.Degrees(), 0.001, "stop %v mm down", depth) // the drop is taken of half the angle
		off := (stop.Rising+stop.Falling).Degrees()/2 - 33
		top := math.Sqrt(180*180 - 64)
		require.InDelta(t, (math.Atan(8/(top-depth))-math.Atan(8/top))*180/math.Pi, off, 1e-5) // the bench finds its highest point to 1e-6 deg
	}
}

// Repeats within a step make one rounding less of themselves; repeats that scatter
// are said to, and widen the answer.
func TestStopRepeats(t *testing.T) {
	setup := carEngine(86, 146)
	stops := func(last float64) evidence.Cylinder {
		return evidence.Cylinder{Stops: []evidence.Stop{
			{Rising: degrees(-31.5), Falling: degrees(24)}, {Rising: degrees(-31.5), Falling: degrees(24.5)}, {Rising: degrees(-31), Falling: degrees(last)},
		}}
	}
	calm, wild := findCylinder(t, setup, stops(24)), findCylinder(t, setup, stops(28))
	require.False(t, has[finding.PairScatter](calm))
	require.True(t, has[finding.PairScatter](wild))
	require.Greater(t, wild.TDC.Uncertainty, 2*calm.TDC.Uncertainty)
	require.Equal(t, 3, calm.Methods[0].Readings)
	two := findCylinder(t, setup, evidence.Cylinder{Stops: []evidence.Stop{{Rising: degrees(-31.5), Falling: degrees(24)}, {Rising: degrees(-20), Falling: degrees(12.5)}}})
	require.Equal(t, 2, two.Methods[0].Readings)
	require.Less(t, two.TDC.Uncertainty, calm.TDC.Uncertainty)
}

// The dwell comes late by lash/(2 slope), in the direction it was turned; both
// ways cancel it, and tell it as the lag (common practice, no source).
func TestDwell(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0.06, 0.06
	forward := evidence.DwellPair{Still: degrees(-6.2), Moves: degrees(9.1), Turn: evidence.Forward}
	backward := evidence.DwellPair{Still: degrees(8.4), Moves: degrees(-6.9), Turn: evidence.Backward}
	one := findCylinder(t, setup, evidence.Cylinder{Dwell: []evidence.DwellPair{forward}})
	half := 7.65 * math.Pi / 180
	slope := 43 * (1 + 43./146) * half // r (1 + r/l) u, near TDC
	require.InDelta(t, 1.45-0.03/slope*180/math.Pi, one.TDC.Angle.Degrees(), 0.01)
	require.True(t, has[finding.DwellOneWay](one))
	require.Greater(t, one.TDC.Uncertainty.Degrees(), 0.5)
	require.Nil(t, one.Dwell.Lag)
	drop := 43 * (1 + 43./146) / 2 * half * half
	require.InDelta(t, drop-0.03, one.Dwell.Resolved.Millimetres(), 0.01)

	both := findCylinder(t, setup, evidence.Cylinder{Dwell: []evidence.DwellPair{forward, backward}})
	require.InDelta(t, (1.45+0.75)/2, both.TDC.Angle.Degrees(), 1e-3)
	require.InDelta(t, (1.45-0.75)/2, both.Dwell.Lag.Degrees(), 1e-6)
	require.False(t, has[finding.DwellOneWay](both))
	require.Less(t, both.TDC.Uncertainty, one.TDC.Uncertainty)
	require.Equal(t, curve.DwellPairs, both.Methods[0].Name)
}

// Equal views, exercise B without its depths: the two ways average to TDC.
func TestEqualViews(t *testing.T) {
	setup := carEngine(92, 144)
	setup.Protractor.Step, setup.Protractor.Error = degrees(0.1), degrees(0.1)
	var c evidence.Cylinder
	for _, p := range [][4]float64{{351.9, 2.9, 351.4, 2.4}, {349.9, 4.9, 349.5, 4.6}, {346.7, 7.9, 346.5, 7.6}, {342.4, 12.2, 342.3, 11.9}} {
		c.Views = append(c.Views, evidence.View{Before: degrees(p[0]), After: degrees(p[1]), Turn: evidence.Forward},
			evidence.View{Before: degrees(p[2]), After: degrees(p[3]), Turn: evidence.Backward})
	}
	r := findCylinder(t, setup, c)
	require.InDelta(t, 0, (r.TDC.Angle - degrees(357.2)).Signed().Degrees(), 0.05)
	require.InDelta(t, 0.05, r.Lash.Value, 2*r.Lash.Uncertainty)
	require.Equal(t, curve.EqualViews, r.Methods[0].Name)
	require.Equal(t, 8, r.Methods[0].Readings)
}

// All kinds in one job give one answer, surer than any alone; each stands on its
// own in the methods, and one that lies apart is said to.
func TestMixedEvidence(t *testing.T) {
	setup := carEngine(86, 146)
	c := evidence.Cylinder{
		Readings: exerciseA(),
		Stops:    []evidence.Stop{{Rising: degrees(-26.5), Falling: degrees(33.5)}},
		Dwell:    []evidence.DwellPair{{Still: degrees(-4), Moves: degrees(11.5), Turn: evidence.Forward}, {Still: degrees(10.5), Moves: degrees(-4.5), Turn: evidence.Backward}},
	}
	r := findCylinder(t, setup, c)
	require.Less(t, r.TDC.Uncertainty, findCylinder(t, setup, evidence.Cylinder{Readings: exerciseA()}).TDC.Uncertainty)
	require.InDelta(t, 3.4, r.TDC.Angle.Degrees(), r.TDC.Expanded.Degrees())
	var names []string
	for _, m := range r.Methods {
		names = append(names, m.Name)
	}
	require.Equal(t, []string{tdc.EqualDrop, tdc.CurveFit, curve.StopContacts, curve.DwellPairs}, names)
	require.False(t, has[finding.MethodApart](r))
	sum := 0.0
	for _, b := range r.Budget {
		sum += b.Angle.Degrees() * b.Angle.Degrees()
	}
	require.InDelta(t, r.TDC.Uncertainty.Degrees(), math.Sqrt(sum), 1e-9)

	c.Stops = []evidence.Stop{{Rising: degrees(-26.5), Falling: degrees(36)}}
	apart := findCylinder(t, setup, c)
	require.True(t, has[finding.PairMisfit](apart) || has[finding.MethodApart](apart))
}

// A reading or two beside a stop tell nothing, and are said to be left out.
func TestFewReadingsBesideAStop(t *testing.T) {
	c := evidence.Cylinder{Stops: []evidence.Stop{{Rising: degrees(-26.5), Falling: degrees(33.5)}}, Readings: exerciseA()[:2]}
	require.Contains(t, findCylinder(t, carEngine(86, 146), c).Findings, finding.NotUsed{Readings: 2, Least: 3})
}

// The 95 % interval of stops, and of dwells seen both ways and one way, holds the
// truth in 95 % of simulated jobs or a little more: the shares of the eye's lag are
// drawn evenly, its noise normally.
func TestPairsHonesty(t *testing.T) {
	slow(t)
	setup := at(0, 0, 2, benchtest.Balanced(1, 8)).setup
	const n = 2000
	contact := func(b benchtest.Bench, sign, depth float64) float64 {
		low, high := 0.0, 1.5
		for range 50 {
			if middle := (low + high) / 2; b.Drop(sign*middle) < depth {
				low = middle
			} else {
				high = middle
			}
		}
		return sign * low
	}
	// the protractor is wrong by the same at each place every time
	stop := func(b benchtest.Bench, rng *rand.Rand, before, after float64) (c evidence.Cylinder) {
		depth := 2 + 8*rng.Float64()
		for range 3 {
			c.Stops = append(c.Stops, evidence.Stop{
				Rising:  degrees(benchtest.Rounded(b.Shown(contact(b, -1, depth))/degree+before, 0.5)),
				Falling: degrees(benchtest.Rounded(b.Shown(contact(b, 1, depth))/degree+after, 0.5)),
			})
		}
		return c
	}
	const independent = "a stop on a protractor wrong anyhow"
	cases := map[string]func(b benchtest.Bench, rng *rand.Rand) evidence.Cylinder{
		independent: func(b benchtest.Bench, rng *rand.Rand) evidence.Cylinder {
			return stop(b, rng, benchtest.Within(rng, 0.25), benchtest.Within(rng, 0.25))
		},
		"a stop on a protractor wrong alike": func(b benchtest.Bench, rng *rand.Rand) evidence.Cylinder {
			alike := benchtest.Within(rng, 0.25)
			return stop(b, rng, alike, alike)
		},
		"dwell both ways": func(b benchtest.Bench, rng *rand.Rand) evidence.Cylinder { return dwell(b, rng, contact, true) },
		"dwell one way":   func(b benchtest.Bench, rng *rand.Rand) evidence.Cylinder { return dwell(b, rng, contact, false) },
	}
	for name, job := range cases {
		held := make([]bool, n)
		run.Each(9000+len(name), n, func(i int, rng *rand.Rand) {
			b := benchtest.Drawn(rng, setup)
			r, err := tdc.Find(setup, job(b, rng))
			half := r.TDC.Expanded
			if strings.HasPrefix(name, "dwell") { // its errors are drawn anew each time
				half = r.AgreeTo.Expanded
			}
			held[i] = err == nil && math.Abs((r.TDC.Angle-geometry.Angle(b.Truth())).Signed().Degrees()) <= half.Degrees()
		})
		in := 0
		for _, h := range held {
			if h {
				in++
			}
		}
		share := float64(in) / n
		t.Logf("%s: %.2f %% of %d jobs, seed %d", name, 100*share, n, run.Seed)
		require.GreaterOrEqual(t, share, 0.94-benchtest.Chance(0.94, n), name)
		if name != independent { // whose errors average out, which the answer cannot know
			require.LessOrEqual(t, share, 0.98+benchtest.Chance(0.98, n), name)
		}
	}
}

// dwell is what somebody sees who notices the end of motion and its beginning at
// some drop, by a share of the half dwell sooner than the other.
func dwell(b benchtest.Bench, rng *rand.Rand, contact func(b benchtest.Bench, sign, depth float64) float64, both bool) (c evidence.Cylinder) {
	resolved, lag := 0.1+0.2*rng.Float64(), benchtest.Within(rng, 0.25)
	turns := []evidence.TurnDirection{evidence.Forward, evidence.Backward}
	if !both {
		turns = turns[:1]
	}
	for _, turn := range turns {
		for range 2 {
			t := float64(turn)
			still, moves := contact(b, -t, resolved), contact(b, t, resolved+b.Lash)
			half := math.Abs(moves-still) / 2
			late := t*lag*half + 0.05*half*rng.NormFloat64()
			see := func(u float64) geometry.Angle {
				return degrees(benchtest.Rounded(b.Shown(u+late)/degree+benchtest.Within(rng, 0.25), 0.5))
			}
			c.Dwell = append(c.Dwell, evidence.DwellPair{Still: see(still), Moves: see(moves), Turn: turn})
		}
	}
	return c
}

// A dwell that does not fit says nothing of what the eye resolved, and answers are
// the same however often they are asked for.
func TestADwellThatDoesNotFit(t *testing.T) {
	var good evidence.Cylinder
	for i := range 6 {
		half := degrees(7.5 + 0.1*float64(i))
		good.Dwell = append(good.Dwell,
			evidence.DwellPair{Still: degrees(3) - half, Moves: degrees(3) + half, Turn: evidence.Forward},
			evidence.DwellPair{Still: degrees(2) + half, Moves: degrees(2) - half, Turn: evidence.Backward})
	}
	without := findCylinder(t, carEngine(86, 146), good)
	bad := good
	bad.Dwell = append(slices.Clone(good.Dwell), evidence.DwellPair{Still: degrees(-62), Moves: degrees(10), Turn: evidence.Forward})
	with := findCylinder(t, carEngine(86, 146), bad)
	require.True(t, has[finding.PairMisfit](with))
	require.InEpsilon(t, float64(without.Dwell.Resolved), float64(with.Dwell.Resolved), 0.01) // lash, told a little worse
	require.InDelta(t, without.Dwell.Lag.Degrees(), with.Dwell.Lag.Degrees(), 1e-9)
}

// Two stops that leave nothing over to show a bad one, met 5 deg apart: one of them is
// wrong and nothing tells which, so that TDC cannot be determined. At 1 deg apart the answer
// reaches both. Stops that agree to the protractor's step are as sure as ever.
func TestTwoStopsThatContradictEachOther(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Engine.KnownTo, setup.Engine.OffsetStated = evidence.DefaultKnownTo(true), true
	stops := func(apart float64) tdc.Result {
		return findCylinder(t, setup, evidence.Cylinder{Number: 1, Stops: []evidence.Stop{
			{Rising: degrees(-30), Falling: degrees(30)}, {Rising: degrees(-40 + 2*apart), Falling: degrees(40)},
		}})
	}
	require.IsType(t, finding.BeyondReason{}, stops(5).CannotTell)
	r := stops(1)
	require.Empty(t, r.CannotTell)
	require.True(t, has[finding.Scattered](r))
	require.InDelta(t, 0.5, r.TDC.Angle.Degrees(), 0.1)
	require.Greater(t, r.TDC.Expanded.Degrees(), 0.5)
	agreeing := stops(0.25)
	require.False(t, has[finding.Scattered](agreeing))
	require.Less(t, agreeing.AgreeTo.Expanded.Degrees(), 0.3)
}

// Two dwells that lie apart by a little more than chance usually makes, and one flank of
// three readings: the interval is wide for want of readings, and that is said; a fourth ends it.
// The truth is invented: TDC at -3.0, a dial that leans by 4 %.
func TestFewThatLieApart(t *testing.T) {
	setup := carEngine(84.6, 138)
	c := evidence.Cylinder{Number: 1, Dwell: []evidence.DwellPair{
		{Still: degrees(-9), Moves: degrees(4), Turn: evidence.Forward}, {Still: degrees(3), Moves: degrees(-10.5), Turn: evidence.Backward},
	}}
	flank := [][2]float64{{-33, 8.07}, {-29, 6.06}, {-25, 4.58}, {-20, 2.93}}
	said := func(n int) bool {
		c.Readings = nil
		for _, at := range flank[:n] {
			c.Readings = append(c.Readings, evidence.Reading{Angle: degrees(at[0]), Depth: geometry.Length(at[1]), Turn: evidence.Forward})
		}
		return has[finding.FewLieApart](findCylinder(t, setup, c))
	}
	require.True(t, said(3))
	require.False(t, said(4))
}

// A few readings of one flank, one of them mistyped, against a stop: neither can overrule
// the other. Enough readings on both sides do. (Of an invented engine, TDC at 65.68 deg.)
func TestAStopAgainstTooFewReadings(t *testing.T) {
	setup := carEngine(92, 187.6)
	setup.Gauge = evidence.DefaultGauge(evidence.Borescope)
	stop := []evidence.Stop{{Rising: degrees(37), Falling: degrees(94.5)}}
	few := evidence.Cylinder{Number: 1, Stops: stop}
	for _, at := range [][2]float64{{47.5, -2.5}, {49, -2.5}, {58, -50}, {57.5, -4.5}} {
		few.Readings = append(few.Readings, evidence.Reading{Angle: degrees(at[0]), Depth: geometry.Length(at[1]), Turn: evidence.Forward})
	}
	require.IsType(t, finding.PairContradicts{}, findCylinder(t, setup, few).CannotTell)
	crank, err := setup.Engine.SliderCrank()
	require.NoError(t, err)
	enough := evidence.Cylinder{Number: 1, Stops: stop}
	for _, from := range []float64{-40, -30, -20, 20, 30, 40} {
		enough.Readings = append(enough.Readings, evidence.Reading{Angle: degrees(75 + from), Depth: crank.Drop(degrees(from)), Turn: evidence.Forward})
	}
	r := findCylinder(t, setup, enough)
	require.Nil(t, r.CannotTell)
	require.True(t, has[finding.PairMisfit](r))
	require.InDelta(t, 75, r.TDC.Angle.Degrees(), 0.3)
}

// Contacts of stops ten degrees apart are those of two stops, whose midpoints may
// differ; of one stop, repeats that differ are spoken of.
func TestTwoStopsAreTwo(t *testing.T) {
	setup := carEngine(86, 146)
	scattered := func(stops ...evidence.Stop) (list []finding.PairScatter) {
		for _, f := range findCylinder(t, setup, evidence.Cylinder{Number: 1, Stops: stops}).Findings {
			if f, ok := f.(finding.PairScatter); ok {
				list = append(list, f)
			}
		}
		return list
	}
	one := evidence.Stop{Rising: degrees(-30), Falling: degrees(30)}
	require.Empty(t, scattered(one, evidence.Stop{Rising: degrees(-19), Falling: degrees(21)}))
	found := scattered(one, evidence.Stop{Rising: degrees(-29), Falling: degrees(31)})
	require.Len(t, found, 1)
	require.Equal(t, "Stop 1", found[0].Pair)
	require.InDelta(t, 1, found[0].Apart.Degrees(), 1e-9)
}

// Dwells and views that scatter by twelve times what they are worth, of an invented
// engine: the search for the place where they agree best ends.
func TestScatteredPairsSettle(t *testing.T) {
	at := func(degrees float64) geometry.Angle { return geometry.Angle(degrees) * geometry.Degree }
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 42.5, Rod: 62.1, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	r, err := tdc.Find(setup, evidence.Cylinder{
		Dwell: []evidence.DwellPair{
			{Still: at(210), Moves: at(225.5), Turn: evidence.Forward}, {Still: at(224.5), Moves: at(207.5), Turn: evidence.Backward}, {Still: at(208.5), Moves: at(227.5), Turn: evidence.Forward}, {Still: at(224), Moves: at(213), Turn: evidence.Backward},
		},
		Views: []evidence.View{{Before: at(190.5), After: at(249), Turn: evidence.Forward}, {Before: at(248), After: at(190.5), Turn: evidence.Backward}},
	})
	require.NoError(t, err)
	require.Empty(t, r.CannotTell)
}

// Each kind on its own is its midpoints less what lash and offset were stated to
// make of them, the directions averaged whatever their numbers.
func TestPairsOnTheirOwn(t *testing.T) {
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(true), OffsetStated: true, BoreOffset: 5},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	view := func(middle, half float64, turn evidence.TurnDirection) evidence.View {
		return evidence.View{Before: geometry.Angle(middle-half) * geometry.Degree, After: geometry.Angle(middle+half) * geometry.Degree, Turn: turn}
	}
	r, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Views: []evidence.View{view(2, 12, evidence.Forward), view(2.4, 12, evidence.Forward), view(1, 12, evidence.Backward)}})
	require.NoError(t, err)
	crank, err := setup.Engine.SliderCrank()
	require.NoError(t, err)
	byOffset := crank.EqualDropMidpoint(crank.Drop(12 * geometry.Degree)).Degrees()
	// lash cancels between the ways; the offset does not
	require.InDelta(t, (2.2+1)/2-byOffset, r.Methods[0].Angle.Degrees(), 1e-4)
	one, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Views: []evidence.View{view(2, 12, evidence.Forward)}})
	require.NoError(t, err)
	slope := float64(crank.Slope(12 * geometry.Degree))
	late := geometry.Angle(0.06 / 2 / slope).Degrees()
	require.InDelta(t, 2-byOffset-late, one.Methods[0].Angle.Degrees(), 1e-4)
}
