package tdc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// six is an in-line six of firing places 0 120 240 240 120 0, cylinder 3's rod bent
// short and cylinder 5's throw indexed late, read both ways on one wheel.
func six(rng *rand.Rand, setup evidence.Setup, shorter, indexed float64) (cylinders []evidence.Cylinder, whole benchtest.Bench) {
	whole = benchtest.Drawn(rng, setup)
	for i, throw := range []float64{0, 120, 240, 240, 120, 0} {
		b := whole
		b.Lash = math.Max(0, float64(setup.Gauge.Lash)+benchtest.Within(rng, float64(setup.Gauge.LashKnownTo)))
		at := throw
		if i == 2 {
			b.Zero += shorter
		}
		if i == 4 {
			at += indexed
		}
		// one wheel: the same centre, seen from where this throw is up
		b.Phase, b.Start = whole.Phase-at*degree, whole.Start+at*degree
		b = b.Settled()
		cylinders = append(cylinders, evidence.Cylinder{
			Number: i + 1, Throw: degrees(throw), Readings: b.Read(rng, setup, benchtest.Balanced(2, 12), benchtest.Noise{}),
		})
	}
	return cylinders, whole
}

// The bent rod and the indexed throw are found, by their sizes within their
// intervals, and no other cylinder is accused more often than chance has it.
func TestThrowsAndCrowns(t *testing.T) {
	setup := at(0, 0, 1, benchtest.Balanced(2, 12)).setup
	setup.Gauge.SameZero = true
	setup.Gauge.ScaleKnownTo = 0.01
	const n, shorter, indexed = 200, 0.3, 1.0
	type tally struct{ throw, crown int }
	var held, accused [6]tally
	for i := range n {
		rng := rand.New(rand.NewPCG(run.Seed, uint64(77_000+i)))
		cylinders, _ := six(rng, setup, shorter, indexed)
		var results []tdc.Result
		for _, c := range cylinders {
			results = append(results, findCylinder(t, setup, c))
		}
		for k, throw := range tdc.Throws(cylinders, results) {
			wantThrow, wantCrown := 0.0, 0.0
			if k == 4 {
				wantThrow = indexed
			}
			if k == 2 {
				wantCrown = shorter
			}
			if math.Abs(throw.Angle.Degrees()-wantThrow) <= throw.Expanded.Degrees() {
				held[k].throw++
			}
			if math.Abs(throw.Crown.Value-wantCrown) <= throw.Crown.Expanded {
				held[k].crown++
			}
			if math.Abs(throw.Angle.Degrees()) > throw.Expanded.Degrees() {
				accused[k].throw++
			}
			if math.Abs(throw.Crown.Value) > throw.Crown.Expanded {
				accused[k].crown++
			}
		}
	}
	t.Logf("seed %d, %d engines: within 95 %% %v, told from zero %v", run.Seed, n, held, accused)
	for k := range held {
		if k > 0 {
			require.GreaterOrEqual(t, float64(held[k].throw)/n, 0.94-benchtest.Chance(0.94, n), "throw %d", k+1)
		}
		require.GreaterOrEqual(t, float64(held[k].crown)/n, 0.94-benchtest.Chance(0.94, n), "crown %d", k+1)
	}
	require.Greater(t, accused[4].throw, n*95/100)
	require.Greater(t, accused[2].crown, n*95/100)
}

// Throws at three places cannot tell a wheel off its centre; at four they can. The
// wheel's error is off/radius times the sine of the place (geometry of a circle).
func TestWheelIndex(t *testing.T) {
	setup := at(0, 0, 0, benchtest.Balanced(2, 24)).setup
	rng := rand.New(rand.NewPCG(run.Seed, 99))
	var cylinders []evidence.Cylinder
	var results []tdc.Result
	for i, throw := range []float64{0, 90, 270, 180} {
		b := benchtest.Drawn(rng, setup)
		b.Wheel, b.Radius = 1, 100
		b.Phase, b.Start = 0.7-throw*degree, 2+throw*degree
		b = b.Settled()
		c := evidence.Cylinder{Number: i + 1, Throw: degrees(throw), Readings: b.Read(rng, setup, benchtest.Balanced(2, 24), benchtest.Noise{})}
		cylinders, results = append(cylinders, c), append(results, findCylinder(t, setup, c))
	}
	few := tdc.WheelIndex(results[:3], tdc.Throws(cylinders[:3], results[:3]))
	require.False(t, few.Told)
	require.Equal(t, 3, few.Places)
	four := tdc.WheelIndex(results, tdc.Throws(cylinders, results))
	require.True(t, four.Told)
	require.InDelta(t, 0.01*57.29578, four.Amplitude.Degrees(), four.Expanded.Degrees())
	require.Less(t, four.Expanded.Degrees(), 0.1)
}

// Without a shared zero no crowns are compared, and one cylinder has no others.
func TestNoCrownsWithoutASharedZero(t *testing.T) {
	setup := carEngine(86, 146)
	c := evidence.Cylinder{Number: 1, Readings: exerciseA()}
	r := findCylinder(t, setup, c)
	require.Nil(t, tdc.Throws([]evidence.Cylinder{c}, []tdc.Result{r}))
	both := tdc.Throws([]evidence.Cylinder{c, c}, []tdc.Result{r, r})
	require.Nil(t, both[1].Crown)
	require.InDelta(t, 0, both[1].Angle.Degrees(), 1e-12)
}

// Turned back to ten degrees either side the gauge shows what it was foretold.
func TestGoBack(t *testing.T) {
	p := at(0, 0, 1, benchtest.Balanced(2, 24))
	const n = 300
	in := 0
	for i := range n {
		rng := rand.New(rand.NewPCG(run.Seed, uint64(88_000+i)))
		b, read := p.job(rng)
		r := findCylinder(t, p.setup, evidence.Cylinder{Number: 1, Readings: read})
		g, ok := r.GoBack(10 * geometry.Degree)
		require.True(t, ok)
		// the protractor is set to where TDC was found, not to where it is
		u := (r.TDC.Angle - geometry.Angle(b.Truth())).Signed().Radians() + 10*degree
		shows := b.Depths([]benchtest.Place{{U: -0.5, Turn: evidence.Forward}, {U: 0.1, Turn: evidence.Forward}, {U: u, Turn: evidence.Forward}})[2]
		shows += benchtest.Within(rng, float64(p.setup.Gauge.Error))
		if math.Abs(shows-g.After.Value) <= 2*g.After.Uncertainty {
			in++
		}
	}
	t.Logf("the gauge showed what it should in %d of %d", in, n)
	require.GreaterOrEqual(t, float64(in)/n, 0.95-benchtest.Chance(0.95, n))
	stop := evidence.Cylinder{Stops: []evidence.Stop{{Rising: degrees(-30), Falling: degrees(30)}}}
	_, ok := findCylinder(t, p.setup, stop).GoBack(10 * geometry.Degree)
	require.False(t, ok)
}

// Ten degrees either side of TDC an exact gauge shows what the law of cosines makes
// of stroke and rod, less lower before TDC than after where the bore stands aside.
func TestGoBackIsTheDropOfEachSide(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Engine.BoreOffset, setup.Engine.OffsetStated = 20, true
	setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0, 0
	b := benchtest.Bench{Throw: 43, Rod: 146, Across: 20, Gauge: 1, Zero: 3, Radius: 100}.Settled()
	var places []benchtest.Place
	for _, u := range []float64{-30, -25, -20, -15, -10, 10, 15, 20, 25, 30} {
		places = append(places, benchtest.Place{U: u * degree, Turn: evidence.Forward})
	}
	var read []evidence.Reading
	for i, depth := range b.Depths(places) {
		read = append(read, evidence.Reading{Angle: geometry.Angle(places[i].U), Depth: geometry.Length(depth), Turn: evidence.Forward})
	}
	g, ok := find(t, setup, read).GoBack(10 * geometry.Degree)
	require.True(t, ok)
	// exact readings are fitted to far below what any gauge shows
	require.InDelta(t, 3+b.Drop(-10*degree), g.Before.Value, 1e-3)
	require.InDelta(t, 3+b.Drop(10*degree), g.After.Value, 1e-3)
	require.Greater(t, math.Abs(g.After.Value-g.Before.Value), 0.005) // so that they cannot change places unseen
}

// What cylinders share cancels between them: an offset of the bores that nobody knows
// makes no throw less certain. And a crown is compared with the others', not its own.
func TestThrowsShareTheOffset(t *testing.T) {
	places := []float64{-80, -70, -60, -50, -40, -30, -20, -10} // of both flanks an offset moves next to nothing
	throws := func(offsetKnownTo geometry.Length) []tdc.Throw {
		setup := carEngine(86, 146)
		setup.Engine.KnownTo.Offset = offsetKnownTo
		setup.Gauge.SameZero = true
		var list []evidence.Cylinder
		var results []tdc.Result
		for i := range 2 {
			read := clean(86, 146, 3, places)
			for k := range read {
				read[k].Depth += geometry.Length(i)
			}
			list = append(list, evidence.Cylinder{Number: i + 1, Readings: read})
			results = append(results, findCylinder(t, setup, list[i]))
		}
		return tdc.Throws(list, results)
	}
	known, unknown := throws(0.01), throws(8)
	require.InEpsilon(t, float64(known[1].Uncertainty), float64(unknown[1].Uncertainty), 0.1)
	require.InDelta(t, -1, known[0].Crown.Value, 1e-6)
	require.InDelta(t, 1, known[1].Crown.Value, 1e-6)
}

// The protractor's error is one curve under all throws: read at the same lines it cancels
// between two, at lines of their own it does not, and it differs more between throws that
// come up far apart on it.
func TestThrowsShareTheProtractor(t *testing.T) {
	setup := evidence.Setup{Engine: engines[0].is, Protractor: protractors[2].is, Gauge: gauges[0].is}
	setup.Protractor.OffCentre = 0 // which would count by how far apart they come, too
	crank, err := setup.Engine.SliderCrank()
	require.NoError(t, err)
	cylinder := func(number int, throw, shifted float64) evidence.Cylinder {
		c := evidence.Cylinder{Number: number, Throw: degrees(throw)}
		for _, u := range []float64{-27, -21, -15, 11, 16, 22, 28} { // too few to wonder what may have moved
			c.Readings = append(c.Readings, evidence.Reading{Angle: degrees(throw + u + shifted), Depth: crank.Drop(degrees(u + shifted)), Turn: evidence.Forward})
		}
		return c
	}
	uncertainty := func(throw, shifted float64) float64 {
		both := []evidence.Cylinder{cylinder(1, 0, 0), cylinder(2, throw, shifted)}
		results := []tdc.Result{findCylinder(t, setup, both[0]), findCylinder(t, setup, both[1])}
		return float64(tdc.Throws(both, results)[1].Uncertainty)
	}
	require.Less(t, uncertainty(0, 0), 0.9*uncertainty(0, 0.5))
	require.Less(t, uncertainty(60, 0.5), 0.95*uncertainty(180, 0.5))
}
