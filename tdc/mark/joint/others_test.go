package joint_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
	"evendrop/tdc/mark/joint/seen"
	"evendrop/tdc/mark/marktest"
)

// eight is a builder's eight on the bench: all its TDCs on one protractor, a mark on the
// damper, and the two lobes of a cylinder's.
type eight struct {
	ring, cam float64 // degrees late that they are
	first     float64 // by which cylinder 1's readings alone show too little
	moved     float64 // by which the protractor shows more since all pistons were read
	early     int     // readings of cylinder 1 before the marks, after which the protractor moved, if that many were
	thrown    float64 // by which cylinder 5's throw is out
	again     int     // of cylinder 1's first places that are read again after the marks
	cylinders int     // that were read; 0 is all
}

// read is the marks as judged, and what is heard beside them.
func (e eight) read(t *testing.T, rng *rand.Rand) (evidence.Setup, mark.Drive, []mark.Judged, *seen.Witnesses) {
	t.Helper()
	setup := evidence.Setup{Engine: benchtest.Engine(92, 153.7), Protractor: benchtest.Protractor(0.5, 0.25), Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.025)}
	setup.Engine.ThrowLimit = marktest.Deg(0.5)
	whole := benchtest.Drawn(rng, setup)
	whole.Start = 30 * benchtest.Degree * rng.Float64()
	curves := benchtest.CurveKinds()
	session := benchtest.Session{Setup: setup, Layout: benchtest.Balanced(2, 16)}
	session.Curve = curves[rng.IntN(len(curves))].Draw(rng, setup.Protractor, 180)
	var cylinders []evidence.Cylinder
	var results []tdc.Result
	for i, throw := range []float64{0, 270, 270, 180, 90, 0, 180, 90} {
		if e.cylinders > 0 && i >= e.cylinders {
			break
		}
		b, s := whole, session
		if e.early > 0 {
			s.Slips = []benchtest.Slip{{Angle: e.moved}}
		}
		at := throw + benchtest.Within(rng, 0.25) // both of a pair's within the limit of 0.5
		switch i {
		case 0:
			at, s.Slips = 0, []benchtest.Slip{{Angle: -e.first}}
		case 4:
			at += e.thrown
		}
		b.Lash = math.Max(0, float64(setup.Gauge.Lash)+benchtest.Within(rng, float64(setup.Gauge.LashKnownTo)))
		b.Phase, b.Start = whole.Phase-at*benchtest.Degree, whole.Start+at*benchtest.Degree
		c := evidence.Cylinder{Number: i + 1, Throw: marktest.Deg(throw), Readings: b.Settled().ReadIn(rng, s)}
		if i == 0 {
			s.Slips = append(s.Slips, benchtest.Slip{After: e.early, Angle: e.moved})
			if e.early > 0 {
				c.Readings = b.Settled().ReadIn(rng, s)
			}
			c.Readings = append(c.Readings, b.Settled().ReadIn(rng, s)[:e.again]...)
		}
		r, err := tdc.Find(setup, c)
		require.NoError(t, err)
		cylinders, results = append(cylinders, c), append(results, r)
	}
	after := session.Layout.Readings
	if session.Slips = []benchtest.Slip{{Angle: e.moved}}; e.early > 0 {
		after, session.Slips = e.early, nil
	}
	notch := mark.Mark{Name: "notch", On: "pulley", After: &after, Limit: marktest.Deg(1), HasLimit: true}
	for range 3 {
		notch.Read = append(notch.Read, whole.Mark(session, (e.ring+benchtest.Within(rng, 0.3))*benchtest.Degree))
	}
	marks := []mark.Mark{notch}
	for _, name := range []string{"inlet cam", "exhaust cam"} { // readLobe takes the valve from it
		m := readLobe(t, rng, whole, session, lobe.From{Result: results[0]}, mark.Mark{Name: name + "'s lobe", On: name, Limit: marktest.Deg(1.5), HasLimit: true}, e.cam+benchtest.Within(rng, 0.3))
		m.On, m.After = "cam", &after
		marks = append(marks, m)
	}
	drive := mark.Drive{Layout: "one cam"}
	judged, err := mark.Judge(setup, results[0], drive, marks)
	require.NoError(t, err)
	throws := mark.JudgeThrows(setup.Engine, results, tdc.Throws(cylinders, results))
	return setup, drive, judged, seen.Hear(setup, results, throws, judged)
}

// told counts what is said of eights.
type told struct {
	jobs     int
	accused  int
	tdcAlone int // TDC of cylinder 1, and nothing else
	bench    int // TDC of cylinder 1, or protractor or pointer, among the likely
	listed   int // the ring and the cam, anywhere
	first    int // likeliest
	given    int // and given angles left in doubt
}

func (a *told) count(d joint.Diagnosis) {
	add := func(n *int, so bool) {
		if so {
			*n++
		}
	}
	likely, _, _ := d.Ranked()
	only := func(e joint.Explanation) bool {
		return len(e.Slips) == 1 && slices.Equal(e.Slips[0].Joints, []string{seen.TDC})
	}
	onBench := func(e joint.Explanation) bool { return names(e, seen.TDC) != nil || names(e, seen.Protractor) != nil }
	at := slices.IndexFunc(d.Explanations, func(e joint.Explanation) bool {
		return is(e, []culprit{{joint: "pulley on crank"}, {joint: "cam on cam sprocket"}})
	})
	a.jobs++
	add(&a.accused, d.Tried > 0)
	add(&a.tdcAlone, len(d.Explanations) == 1 && only(d.Explanations[0]))
	add(&a.bench, slices.ContainsFunc(likely, onBench))
	add(&a.listed, at >= 0)
	add(&a.first, at == 0)
	add(&a.given, at == 0 && d.GivenAngles)
}

// What the marks share is not put down to the TDC of cylinder 1 where the other cylinders
// speak against that: a ring and a cam that are late by nearly as much are listed, and first
// where the piston was read again after the marks. TDC is still named where it is wrong, of
// whatever size, and so is what may have moved on the bench.
func TestOtherCylinders(t *testing.T) {
	n := max(5, *jobs/30) // every job is eight pistons
	if testing.Short() {
		n = 5
	}
	t.Logf("seed %d", benchSeed)
	for k, of := range []struct {
		name string
		eight
		never, always func(a told) int // of the jobs with something accused
	}{
		{"nothing", eight{}, told.accusations, nil},
		{"ring and cam", eight{ring: 2.5, cam: 3}, told.alone, told.lists},
		{"and a throw out", eight{ring: 2.5, cam: 3, thrown: 3}, told.alone, told.lists},
		{"and one other cylinder", eight{ring: 2.5, cam: 3, cylinders: 2}, told.alone, told.lists},
		{"and the piston read again", eight{ring: 2.5, cam: 3, again: 2}, told.benches, told.doubts},
		{"and once", eight{ring: 2.5, cam: 3, again: 1}, told.benches, told.doubts},
		{"TDC of cylinder 1", eight{first: 3}, told.lists, told.alone},
		{"and a throw out", eight{first: 3, thrown: 3}, told.lists, told.alone},
		{"and one other cylinder", eight{first: 3, cylinders: 2}, told.lists, told.alone},
		{"and the piston read again", eight{first: 3, again: 2}, told.lists, told.alone},
		{"by 1.5", eight{first: 1.5}, told.leads, told.benches},
		{"by 10", eight{first: 10}, told.lists, told.alone},
		{"protractor", eight{moved: 3}, told.leads, told.benches},
		{"by 1.5", eight{moved: 1.5}, told.leads, told.benches},
		{"and the piston read again once", eight{moved: 3, again: 1}, told.leads, told.benches},
		{"by 1.5 and once", eight{moved: 1.5, again: 1}, told.leads, told.benches},
		{"after the marks", eight{moved: 3, early: 2}, told.leads, told.benches},
	} {
		rng := rand.New(rand.NewPCG(benchSeed, 700+uint64(k)))
		var before, a told
		for range n {
			e := of.eight
			if rng.IntN(2) == 0 {
				e.ring, e.cam, e.first, e.moved = -e.ring, -e.cam, -e.first, -e.moved
			}
			setup, drive, judged, witnesses := e.read(t, rng)
			d, err := joint.Explain(setup, drive, judged, nil)
			require.NoError(t, err)
			before.count(d)
			d, err = joint.Explain(setup, drive, judged, witnesses)
			require.NoError(t, err)
			a.count(d)
		}
		t.Logf("%-32s without witnesses %+v", of.name, before)
		t.Logf("%-32s with            %+v", "", a)
		// a witness strays beyond 2.576 standard uncertainties in 1 %, but for chance
		stray := 0.01*float64(n) + 3*math.Sqrt(0.01*float64(n))
		require.LessOrEqual(t, float64(of.never(a)), stray, of.name)
		require.Equal(t, before.accused, a.accused, of.name)
		if of.always != nil {
			require.GreaterOrEqual(t, float64(of.always(a)), float64(a.accused)-stray, of.name)
			require.Positive(t, a.accused, of.name)
		}
	}
}

func (a told) accusations() int { return a.accused }
func (a told) alone() int       { return a.tdcAlone }
func (a told) benches() int     { return a.bench }
func (a told) lists() int       { return a.listed }
func (a told) leads() int       { return a.first }
func (a told) doubts() int      { return a.given }

// Where other cylinders stand in their places and nobody read the piston again, that is to be
// read first; the parts of the engine that would show the same are named beside the protractor,
// and none of these needs it. An offset that nobody stated makes marks early.
func TestProtractorComesFirst(t *testing.T) {
	early := []mark.Judged{marktest.Limited("pulley", -2.6, 0.2, 1), marktest.Limited("cam", -3.1, 0.2, 1.5), marktest.Limited("flywheel", -2.9, 0.2, 1.5)}
	drive := mark.Drive{Layout: "one cam"}
	throws := []mark.JudgedThrow{{Throw: tdc.Throw{Estimate: gum.Estimate{Uncertainty: marktest.Deg(0.2), Expanded: marktest.Deg(0.4)}}}}
	explained := func(findings []mark.Judged) joint.Diagnosis {
		d, err := joint.Explain(marktest.PetrolFour, drive, findings, seen.Hear(marktest.PetrolFour, []tdc.Result{{}}, throws, findings))
		require.NoError(t, err)
		return d
	}
	d := explained(early)
	require.True(t, d.OnBench)
	require.Equal(t, 1, d.Tried)
	require.Len(t, d.Explanations, 1, "three parts would have to move")
	require.Equal(t, []string{seen.Protractor}, d.Explanations[0].Slips[0].Joints)
	slipped := finding.Joint{Name: seen.Protractor, Off: d.Explanations[0].Slips[0].Angle}
	require.Contains(t, d.Explanations[0].Slips[0].Notes, finding.UsualSize{Joint: slipped, Causes: []finding.Cause{finding.MovedScale}})
	require.IsType(t, finding.TDCByOffset{}, d.Explanations[0].Slips[0].Notes[0])

	apart := []mark.Judged{marktest.Limited("pulley", -1.6, 0.2, 1), marktest.Limited("cam", -3.8, 0.2, 1.5), marktest.Limited("flywheel", -3.8, 0.2, 1.5)}
	require.Len(t, explained(apart).Explanations, 1, "not the pulley besides")

	d = explained(early[:2])
	require.True(t, d.OnBench)
	require.Len(t, d.Explanations, 2)
	require.Nil(t, names(d.Explanations[1], seen.Protractor))
	require.Equal(t, inspect.PistonAgain, d.TellApart[0].How)
}
