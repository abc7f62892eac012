package session_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/plan"
)

var run = benchtest.Flags(flag.CommandLine)

// honest is a sitting at some engine with some instruments: what the job states of them is
// true, but for the lash of a worn engine and an offset that nobody stated.
func honest(rng *rand.Rand) (evidence.Setup, []evidence.Reading) {
	engines := []evidence.Engine{benchtest.Engine(81.4, 133), benchtest.Engine(69, 120), benchtest.Engine(94.6, 155), benchtest.Engine(60, 130)}
	setup := evidence.Setup{Engine: engines[rng.IntN(len(engines))]}
	if rng.IntN(2) == 0 {
		setup.Engine = benchtest.Unstated(setup.Engine)
	}
	setup.Protractor = []evidence.Protractor{benchtest.Protractor(0.5, 0.25), benchtest.Protractor(1, 0.5), benchtest.Protractor(0.1, 0.09)}[rng.IntN(3)]
	setup.Gauge = evidence.DefaultGauge([]evidence.GaugeKind{evidence.Dial, evidence.Dial, evidence.DepthRod, evidence.Borescope}[rng.IntN(4)])
	bench := benchtest.Drawn(rng, setup)
	if rng.IntN(4) == 0 {
		bench.Lash = 0.4 * rng.Float64()
	}
	bench.Zero = []float64{0, 0.5 * rng.Float64(), 5, 20 * rng.Float64()}[rng.IntN(4)]
	bench.Start = 0.3 * (2*rng.Float64() - 1) // the wheel was set near TDC by eye, radians
	bench = bench.Settled()
	layout := []benchtest.Layout{benchtest.Balanced(1, 12), benchtest.Balanced(2, 12), benchtest.Balanced(2, 24), benchtest.Lopsided(2, 16), benchtest.Balanced(4, 24)}[rng.IntN(5)]
	kinds := benchtest.CurveKinds()
	return setup, bench.ReadIn(rng, benchtest.Session{Setup: setup, Layout: layout, Curve: kinds[rng.IntN(len(kinds))].Draw(rng, setup.Protractor, 180)})
}

// lineOf is a reading as it is typed, its angle from 0 to 360 or, signed, to 180 either way.
func lineOf(r evidence.Reading, signed bool) string {
	angle := r.Angle.Positive().Degrees()
	if signed {
		angle = r.Angle.Signed().Degrees()
	}
	return fmt.Sprintf("%s %s %s", r.Turn.String()[:1], decimals(angle, 2), decimals(float64(r.Depth), 5))
}

// decimals is a number with at most so many decimals.
func decimals(x float64, places int) string {
	scale := math.Pow10(places)
	return strconv.FormatFloat(math.Round(x*scale)/scale, 'f', -1, 64)
}

// spoilt are blunders with one reading, and the least share of sittings in which it has to
// be named, alone or with another. It is never to be another alone that is named, but where
// the blunder is no factor: seldom then.
var spoilt = []struct {
	name         string
	named, blame float64
	spoil        func(r evidence.Reading) evidence.Reading
}{
	{"depth x 10", 0.9, 0.005, byFactor(10)}, {"depth / 10", 0.8, 0.005, byFactor(0.1)},
	{"depth x 25.4", 0.9, 0.005, byFactor(25.4)}, {"depth / 25.4", 0.8, 0.005, byFactor(1 / 25.4)},
	{"depth x 100", 0.9, 0.005, byFactor(100)}, {"depth x 1000", 0.9, 0.005, byFactor(1000)}, {"depth / 1000", 0.8, 0.005, byFactor(0.001)},
	{"sign lost", 0.8, 0.01, func(r evidence.Reading) evidence.Reading { r.Angle = -r.Angle; return r }},
	{"angle / 10", 0.5, 0.08, func(r evidence.Reading) evidence.Reading { r.Angle = r.Angle.Positive() / 10; return r }},
	{"changed over", 0.9, 0.01, func(r evidence.Reading) evidence.Reading {
		angle := r.Angle.Positive().Degrees()
		r.Angle, r.Depth = geometry.Angle(float64(r.Depth))*geometry.Degree, geometry.Length(angle)
		return r
	}},
	{"2 mm", 0.5, 0.08, func(r evidence.Reading) evidence.Reading { r.Depth += 2; return r }},
}

func byFactor(f float64) func(r evidence.Reading) evidence.Reading {
	return func(r evidence.Reading) evidence.Reading { r.Depth *= geometry.Length(f); return r }
}

// typing types lines, and tells the question after each: the lines that it is about, from 0.
// It ends when that wants no more.
func typing(setup evidence.Setup, lines []string, each func(n int, about []int) (more bool)) error {
	store := &memory{setup: setup}
	s := &session.Session{Job: job.Job{Setup: setup, Unit: "mm", Cylinders: []evidence.Cylinder{{Number: 1}}},
		Number: 1, File: "here", Store: store, Ground: plan.Ground{Deepest: 8}, Width: 60}
	if _, err := s.Open(); err != nil {
		return err
	}
	for n, line := range lines {
		if _, _, err := s.Obey(line); err != nil {
			return fmt.Errorf("%s: %w", line, err)
		}
		var about []int
		for _, r := range s.Asked() {
			about = append(about, slices.IndexFunc(store.readings, func(other evidence.Reading) bool { return other.Line == r.Line }))
		}
		if !each(n, about) {
			return nil
		}
	}
	return nil
}

// notShort leaves a simulation out of a short run.
func notShort(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates sittings")
	}
}

// Honest sittings are asked nothing, but one in 200 at most.
func TestNoWolf(t *testing.T) {
	notShort(t)
	var asked atomic.Int64
	n := run.Count(60, 2000)
	run.Each(0, n, func(i int, rng *rand.Rand) {
		setup, read := honest(rng)
		var lines []string
		for _, r := range read {
			lines = append(lines, lineOf(r, i%2 == 0))
		}
		if err := typing(setup, lines, func(n int, about []int) bool {
			if len(about) > 0 {
				asked.Add(1)
				t.Logf("sitting %d: line %d asks about %v\n%s", i, n, about, strings.Join(lines[:n+1], "\n"))
			}
			return len(about) == 0
		}); err != nil {
			t.Error(err)
		}
	})
	t.Logf("seed %d: %d of %d honest sittings were asked something", run.Seed, asked.Load(), n)
	require.LessOrEqual(t, float64(asked.Load()), float64(n)*(0.005+benchtest.Chance(0.005, n)))
}

// What becomes of a sitting with one blunder.
const (
	onLine  = iota // named alone, on its line
	later          // named alone, later
	withOne        // named with another that it may be, and never alone
	silent         // not named
	blamed         // another was named alone before it, or in its place
	outcomes
)

// A blunder is named: on its line, or with another that it may be, or later; another is not
// blamed for it. Those that change a depth by less than 1 mm count for none.
func TestBlunders(t *testing.T) {
	notShort(t)
	n := run.Count(24, 2000)
	t.Logf("seed %d, %d sittings of each, the blunder in any line; of those: alone on its line, alone later, with another, not named, another blamed", run.Seed, n)
	for k, kind := range spoilt {
		var counts [outcomes]atomic.Int64
		run.Each(k+1, n, func(i int, rng *rand.Rand) {
			setup, read := honest(rng)
			at := rng.IntN(len(read))
			if i%2 == 0 {
				at = rng.IntN(6)
			}
			was := read[at]
			read[at] = kind.spoil(was)
			if kind.name[0] == 'd' && math.Abs(float64(read[at].Depth-was.Depth)) < 1 {
				return
			}
			var lines []string
			for _, r := range read {
				lines = append(lines, lineOf(r, kind.name == "sign lost"))
			}
			what, err := becomes(setup, lines, at)
			if err != nil {
				t.Error(kind.name, err)
			}
			counts[what].Add(1)
		})
		var c [outcomes]float64
		all := 0.0
		for i := range counts {
			c[i] = float64(counts[i].Load())
			all += c[i]
		}
		t.Logf("%-13s %4.0f sittings: %5.1f %5.1f %5.1f %5.1f %5.1f %%", kind.name, all, 100*c[onLine]/all, 100*c[later]/all, 100*c[withOne]/all, 100*c[silent]/all, 100*c[blamed]/all)
		require.GreaterOrEqual(t, (c[onLine]+c[later]+c[withOne])/all, kind.named-benchtest.Chance(kind.named, int(all)), kind.name)
		require.LessOrEqual(t, c[blamed]/all, kind.blame+benchtest.Chance(kind.blame, int(all)), kind.name)
	}
}

// becomes is what becomes of lines of which one is wrong.
func becomes(setup evidence.Setup, lines []string, at int) (what int, err error) {
	what, stop := silent, len(lines)
	err = typing(setup, lines, func(n int, about []int) bool {
		alone, has := len(about) == 1, slices.Contains(about, at)
		switch {
		case len(about) == 0 || what == blamed:
		case alone && !has:
			what, stop = blamed, 0
		case alone && n == at:
			what, stop = onLine, n+3 // the next ones are not blamed for it
		case alone && what != onLine:
			what, stop = later, min(stop, n+3)
		case has && what == silent:
			what = withOne
		}
		return n < stop
	})
	return what, err
}
