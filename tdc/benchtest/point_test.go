package benchtest_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"regexp"
	"testing"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// run is what the command line asks of the tables.
var run = benchtest.Flags(flag.CommandLine)

// slow skips a test under -short, as the race detector is run with: it shares nothing
// that could race.
func slow(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates thousands of jobs")
	}
}

// point is one place of a table: many jobs alike.
type point struct {
	name   string
	setup  evidence.Setup
	layout benchtest.Layout
	noise  benchtest.Noise
	kind   benchtest.CurveKind // of protractor
	fixed  fixed
	slips  func(rng *rand.Rand, l benchtest.Layout) []benchtest.Slip     // what slips
	spoil  func(rng *rand.Rand, r []evidence.Reading) []evidence.Reading // what is typed wrong
}

// fixed is what of a bench is fixed and not drawn; nil is drawn.
type fixed struct {
	lash, offset, tilt *float64 // mm, mm, degrees
	start              *float64 // what the protractor shows at TDC, degrees
}

// on is the bench with that fixed.
func (f fixed) on(b benchtest.Bench) benchtest.Bench {
	set := func(to *float64, from *float64, as func(x float64) float64) {
		if from != nil {
			*to = as(*from)
		}
	}
	same := func(x float64) float64 { return x }
	set(&b.Lash, f.lash, same)
	set(&b.Across, f.offset, same)
	set(&b.Gauge, f.tilt, func(degrees float64) float64 { return 1 / math.Cos(degrees*benchtest.Degree) })
	set(&b.Start, f.start, func(degrees float64) float64 { return degrees * benchtest.Degree })
	return b.Settled()
}

// anyKind is a protractor of whatever kind.
var anyKind = benchtest.CurveKind{Name: "any", Draw: func(rng *rand.Rand, p evidence.Protractor, middle float64) benchtest.Curve {
	kinds := benchtest.CurveKinds()
	return kinds[rng.IntN(len(kinds))].Draw(rng, p, middle)
}}

// petrol is an invented petrol four of 2 l with a dial gauge and a protractor of a step
// and an error.
func petrol(step, bound float64) evidence.Setup {
	return evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: benchtest.Protractor(step, bound),
		Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
}

// markedAt is where marks are read, degrees from TDC.
var markedAt = [3]float64{4, 20, 90}

// outcome is what became of one job, in degrees.
type outcome struct {
	untold          bool // refused, or TDC cannot be told
	off, half       float64
	start           float64 // off what held when the session began
	shows           float64 // off what this protractor shows at TDC
	readings        float64 // half-width by the readings alone
	marks           [len(markedAt)]within
	warned, scatter bool
	slip            bool
	agrees          float64 // off by the readings alone, nothing taken to have moved
}

// within is something found, and whether its interval holds the truth.
type within struct {
	half float64
	held bool
}

// job simulates one.
func (p point) job(rng *rand.Rand) outcome {
	b := benchtest.Drawn(rng, p.setup)
	b = p.fixed.on(b)
	s := benchtest.Session{Setup: p.setup, Layout: p.layout, Noise: p.noise}
	s.Curve = p.kind.Draw(rng, p.setup.Protractor, b.Truth()/benchtest.Degree)
	if p.slips != nil {
		s.Slips = p.slips(rng, p.layout)
	}
	readings := b.ReadIn(rng, s)
	if p.spoil != nil {
		readings = p.spoil(rng, readings)
	}
	r, err := tdc.Find(p.setup, evidence.Cylinder{Number: 1, Readings: readings})
	if err != nil {
		return outcome{untold: true}
	}
	return look(rng, b, s, r)
}

// look is what a result says, beside the truth.
func look(rng *rand.Rand, b benchtest.Bench, s benchtest.Session, r tdc.Result) outcome {
	off := func(truth float64) float64 { return (r.TDC.Angle - geometry.Angle(truth)).Signed().Degrees() }
	end := b.TrueAtEnd(s)
	o := outcome{
		untold: r.CannotTell != nil, agrees: (r.AgreeTo.Angle - geometry.Angle(end)).Signed().Degrees(), off: off(end), half: r.TDC.Expanded.Degrees(), start: off(b.Truth()),
		shows: off(end + s.Curve(end/benchtest.Degree)*benchtest.Degree), readings: readings95(r).Degrees(),
		warned: len(r.Findings) > 0, scatter: scattered(r), slip: slipped(r),
	}
	for i, degrees := range markedAt {
		at := benchtest.Degree * degrees * float64(1-2*rng.IntN(2))
		found, half := after(r, b.Mark(s, at))
		miss := math.Abs((found - geometry.Angle(at)).Signed().Degrees())
		o.marks[i] = within{half.Degrees(), miss <= half.Degrees()}
	}
	return o
}

// outcomes is what became of n jobs.
func (p point) outcomes(stream, n int) outcomes {
	all := make(outcomes, n)
	run.Each(stream, n, func(i int, rng *rand.Rand) { all[i] = p.job(rng) })
	return all
}

// outcomes is those of many jobs.
type outcomes []outcome

// share is how many of the jobs are so.
func (all outcomes) share(so func(o outcome) bool) float64 {
	n := 0
	for _, o := range all {
		if so(o) {
			n++
		}
	}
	return float64(n) / float64(len(all))
}

// mean is the mean of something over the jobs that were answered.
func (all outcomes) mean(of func(o outcome) float64) float64 {
	sum, n := 0.0, 0.0
	for _, o := range all {
		if !o.untold {
			sum, n = sum+of(o), n+1
		}
	}
	return sum / n
}

// strays is how far the mean of something strays by chance: three standard deviations.
func (all outcomes) strays(of func(o outcome) float64) float64 {
	mean := all.mean(of)
	square := all.mean(func(o outcome) float64 { return (of(o) - mean) * (of(o) - mean) })
	return 3 * math.Sqrt(square/float64(len(all)))
}

// held tells whether TDC, as it is at the end, is in the interval.
func held(o outcome) bool { return !o.untold && math.Abs(o.off) <= o.half }

// chosen is the points that the command line asks for.
func chosen(points []point) (list []point) {
	wanted := regexp.MustCompile(run.Only)
	for _, p := range points {
		if wanted.MatchString(p.name) {
			list = append(list, p)
		}
	}
	return list
}
