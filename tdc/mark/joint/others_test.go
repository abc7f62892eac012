package joint_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
	"evendrop/tdc/mark/marktest"
)

// eight is a builder's eight on the bench: all its TDCs on one protractor, a mark on the
// damper, and the two lobes of a cylinder's.
type eight struct {
	ring, cam float64 // degrees late that they are
	first     float64 // by which cylinder 1's readings alone show too little
	moved     float64 // by which the protractor shows more since all pistons were read
	thrown    float64 // by which cylinder 5's throw is out
}

// read is the marks as judged, and the throws.
func (e eight) read(t *testing.T, rng *rand.Rand) (evidence.Setup, mark.Drive, []mark.Judged, []mark.JudgedThrow) {
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
		b, s := whole, session
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
		r, err := tdc.Find(setup, c)
		require.NoError(t, err)
		cylinders, results = append(cylinders, c), append(results, r)
	}
	session.Slips = []benchtest.Slip{{Angle: e.moved}}
	notch := mark.Mark{Name: "notch", On: "pulley", Limit: marktest.Deg(1), HasLimit: true}
	for range 3 {
		notch.Read = append(notch.Read, whole.Mark(session, (e.ring+benchtest.Within(rng, 0.3))*benchtest.Degree))
	}
	marks := []mark.Mark{notch}
	for _, name := range []string{"inlet cam", "exhaust cam"} { // readLobe takes the valve from it
		m := readLobe(t, rng, whole, session, lobe.From{Result: results[0]}, mark.Mark{Name: name + "'s lobe", On: name, Limit: marktest.Deg(1.5), HasLimit: true}, e.cam+benchtest.Within(rng, 0.3))
		m.On = "cam"
		marks = append(marks, m)
	}
	drive := mark.Drive{Layout: "one cam"}
	judged, err := mark.Judge(setup, results[0], drive, marks)
	require.NoError(t, err)
	return setup, drive, judged, mark.JudgeThrows(setup.Engine, results, tdc.Throws(cylinders, results))
}

// told counts what is said of eights.
type told struct {
	jobs, accused int
	tdcAlone      int // TDC of cylinder 1 and nothing else
	tdc           int // among what is likely
	protractor    int // likely
	truth         int // ring and cam listed
	truthFirst    int // likeliest
}

func (a *told) count(d joint.Diagnosis) {
	a.jobs++
	if d.Tried > 0 {
		a.accused++
	}
	likely, _, _ := d.Ranked()
	has := func(list []joint.Explanation, name string) bool {
		return slices.ContainsFunc(list, func(e joint.Explanation) bool { return names(e, name) != nil })
	}
	if has(likely, seen.TDC) {
		a.tdc++
	}
	if has(likely, seen.Protractor) {
		a.protractor++
	}
	if len(d.Explanations) == 1 && len(d.Explanations[0].Slips) == 1 && slices.Equal(d.Explanations[0].Slips[0].Joints, []string{seen.TDC}) {
		a.tdcAlone++
	}
	truth := []culprit{{joint: "pulley on crank"}, {joint: "cam on cam sprocket"}}
	at := slices.IndexFunc(d.Explanations, func(e joint.Explanation) bool { return is(e, truth) })
	if at >= 0 {
		a.truth++
	}
	if at == 0 {
		a.truthFirst++
	}
}

func TestOtherCylinders(t *testing.T) {
	for k, of := range []struct {
		name string
		eight
	}{
		{"nothing", eight{}},
		{"ring and cam", eight{ring: 2.5, cam: 3}},
		{"ring and cam, a throw out by 3", eight{ring: 2.5, cam: 3, thrown: 3}},
		{"TDC of cylinder 1", eight{first: 3}},
		{"TDC of cylinder 1, a throw out by 3", eight{first: 3, thrown: 3}},
		{"protractor", eight{moved: 3}},
		{"ring", eight{ring: 2.5}},
	} {
		rng := rand.New(rand.NewPCG(benchSeed, 700+uint64(k)))
		var before, after told
		for range *jobs {
			e := of.eight
			if rng.IntN(2) == 0 {
				e = eight{-e.ring, -e.cam, -e.first, -e.moved, e.thrown}
			}
			setup, drive, judged, throws := e.read(t, rng)
			for _, said := range []struct {
				throws []mark.JudgedThrow
				a      *told
			}{{nil, &before}, {throws, &after}} {
				d, err := joint.Explain(setup, drive, judged, said.throws)
				require.NoError(t, err)
				said.a.count(d)
			}
		}
		t.Logf("%s: before %+v", of.name, before)
		t.Logf("%s: after  %+v", of.name, after)
	}
}

var _ = geometry.Degree
