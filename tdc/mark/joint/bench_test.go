package joint_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
	"evendrop/tdc/lobe/lobetest"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
)

// shows is by how much each of the seven marks comes late for a degree of one
// joint: pin P, notch N, gap G, inlet and exhaust flats CI and CE, and the wheels'
// edges WI and WE from the gap. Written down from what turns with what; nothing
// here asks the code under test.
type shows [7]float64

// The rows that do not depend on the layout, and those that the layouts put
// together.
var (
	onlyP  = shows{1, 0, 0, 0, 0, 0, 0}
	onlyN  = shows{0, 1, 0, 0, 0, 0, 0}
	gap    = shows{0, 0, 1, 0, 0, -1, -1} // the edges are measured from it
	both   = shows{0, 0, 0, 1, 1, 1, 1}
	inlet  = shows{0, 0, 0, 1, 0, 1, 0}
	outlet = shows{0, 0, 0, 0, 1, 0, 1}
	onlyCI = shows{0, 0, 0, 1, 0, 0, 0}
	onlyCE = shows{0, 0, 0, 0, 1, 0, 0}
	onlyWI = shows{0, 0, 0, 0, 0, 1, 0}
	onlyWE = shows{0, 0, 0, 0, 0, 0, 1}
)

// culprit is a joint and what it shows.
type culprit struct {
	joint string
	shows shows
}

// culprits is every joint of a drive that can slip, and the two marks whose other
// half may be bent. An engine of one cam has no CE and no WE.
func culprits(d mark.Drive) []culprit {
	list := []culprit{{"crank sprocket on crank", both}, {"P itself", onlyP}, {"N itself", onlyN}, {"crank wheel on " + d.CrankWheelOn, gap}}
	switch d.CrankWheelOn {
	case "flywheel":
		list = append(list, culprit{"flywheel on crank", shows{1, 0, 1, 0, 0, -1, -1}}, culprit{"pulley on crank", onlyN})
	case "pulley":
		list = append(list, culprit{"flywheel on crank", onlyP}, culprit{"pulley on crank", shows{0, 1, 1, 0, 0, -1, -1}})
	default:
		list = append(list, culprit{"flywheel on crank", onlyP}, culprit{"pulley on crank", onlyN})
	}
	ofInlet, ofOutlet := inlet, outlet
	if d.CamWheelOn == "sprocket" {
		ofInlet, ofOutlet = onlyCI, onlyCE
	}
	if d.Layout == "one cam" {
		under := map[string]string{"cam": "cam", "sprocket": "cam sprocket"}[d.CamWheelOn]
		return append(list, culprit{"drive to cam sprocket", inlet}, culprit{"cam on cam sprocket", ofInlet}, culprit{"cam wheel on " + under, onlyWI})
	}
	list = append(list, culprit{"inlet cam on inlet sprocket", ofInlet}, culprit{"exhaust cam on exhaust sprocket", ofOutlet},
		culprit{"inlet wheel on inlet " + d.CamWheelOn, onlyWI}, culprit{"exhaust wheel on exhaust " + d.CamWheelOn, onlyWE})
	switch d.Layout {
	case "two cams":
		return append(list, culprit{"drive on crank sprocket", both}, culprit{"drive to inlet sprocket", inlet}, culprit{"drive to exhaust sprocket", outlet})
	case "two cams, inlet first":
		return append(list, culprit{"drive to inlet sprocket", both}, culprit{"drive to exhaust sprocket", outlet})
	}
	return append(list, culprit{"drive to inlet sprocket", inlet}, culprit{"drive to exhaust sprocket", both})
}

// engine is an invented engine on the bench.
type engine struct {
	drive    mark.Drive
	marks    []mark.Mark
	row      []int // of shows, of each mark
	knownTo  []float64
	culprits []culprit
	kind     witnesses
}

// witnesses is what an engine's cams are seen by.
type witnesses int

const (
	flats witnesses = iota // of each cam, and one edge of its wheel
	edges                  // flats, and three edges of each wheel
	lobes                  // a lobe of each cam in place of its flats
)

// spaced is what the teeth of a wheel are spaced to, degrees either way.
const spaced = 0.2

func pick[T any](rng *rand.Rand, list ...T) T { return list[rng.IntN(len(list))] }

// anEngineOf draws an engine whose cams are seen by some witnesses.
func anEngineOf(rng *rand.Rand, kind witnesses) engine {
	e := anEngine(rng)
	if e.kind = kind; kind != edges {
		return e
	}
	for i, m := range slices.Clone(e.marks) {
		if m.Against == "" {
			continue
		}
		for _, name := range []string{" second", " third"} {
			m.Name += name
			e.marks, e.row, e.knownTo = append(e.marks, m), append(e.row, e.row[i]), append(e.knownTo, e.knownTo[i])
		}
	}
	return e
}

// anEngine draws a layout, which marks it has, all or all but a few, what each is
// allowed and, of those measured without the protractor, known to (common
// practice, no source).
func anEngine(rng *rand.Rand) engine {
	e := engine{drive: mark.Drive{
		Layout:       pick(rng, "one cam", "two cams", "two cams", "two cams, inlet first", "two cams, exhaust first"),
		CrankWheelOn: pick(rng, "flywheel", "flywheel", "pulley", "crank"), CamWheelOn: pick(rng, "cam", "cam", "sprocket"),
		CrankSprocket: 18 + rng.IntN(7), CrankWheel: "60-2", CrankPitches: 60, FlywheelBolts: pick(rng, 0, 6, 8),
	}}
	e.culprits = culprits(e.drive)
	fewer := rng.IntN(2) == 0
	for i, m := range []struct {
		name, on, against string
		limit, knownTo    float64
	}{
		{"P", "flywheel", "", pick(rng, 0.5, 1, 1), 0}, {"N", "pulley", "", pick(rng, 1., 2), 0}, {"G", "crank wheel", "", pick(rng, 1, 1.5), 0},
		{"CI", "inlet cam", "", pick(rng, 1.5, 2, 3), pick(rng, 0.3, 0.6, 1)}, {"CE", "exhaust cam", "", pick(rng, 1.5, 2, 3), pick(rng, 0.3, 0.6, 1)},
		{"WI", "inlet wheel", "crank wheel", pick(rng, 1, 2, 2.5), pick(rng, 0.2, 0.5)}, {"WE", "exhaust wheel", "crank wheel", pick(rng, 1, 2, 2.5), pick(rng, 0.2, 0.5)},
	} {
		oneCam := e.drive.Layout == "one cam"
		if oneCam && (m.name == "CE" || m.name == "WE") || fewer && rng.IntN(4) == 0 {
			continue
		}
		if oneCam && m.knownTo > 0 {
			m.on = map[string]string{"CI": "cam", "WI": "cam wheel"}[m.name]
		}
		e.marks = append(e.marks, mark.Mark{Name: m.name, On: m.on, Against: m.against, Limit: marktest.Deg(m.limit), HasLimit: true})
		e.row, e.knownTo = append(e.row, i), append(e.knownTo, m.knownTo)
	}
	if len(e.marks) < 3 {
		return anEngine(rng)
	}
	return e
}

// seen is a culprit's column over the marks there are.
func (e engine) seen(c culprit) []float64 {
	var column []float64
	for _, i := range e.row {
		column = append(column, c.shows[i])
	}
	return column
}

// anyOf draws culprits that the marks see, no two of them alike.
func (e engine) anyOf(rng *rand.Rand, n int) []culprit {
	var drawn []culprit
	for _, at := range rng.Perm(len(e.culprits)) {
		c := e.culprits[at]
		alike := func(d culprit) bool { return parallel(e.seen(c), e.seen(d)) }
		if slices.ContainsFunc(e.seen(c), func(x float64) bool { return x != 0 }) && !slices.ContainsFunc(drawn, alike) {
			if drawn = append(drawn, c); len(drawn) == n {
				return drawn
			}
		}
	}
	return nil
}

// parallel tells whether one column is a multiple of the other.
func parallel(a, b []float64) bool {
	var aa, ab, bb float64
	for i := range a {
		aa, ab, bb = aa+a[i]*a[i], ab+a[i]*b[i], bb+b[i]*b[i]
	}
	return ab*ab > 0.999*aa*bb
}

// stands is by how much each mark is off: made anywhere within what it is allowed, the
// edges of a wheel all alike but for how they are spaced, and moved by the slips.
func (e engine) stands(rng *rand.Rand, slipped []culprit, by []float64) []float64 {
	off, made := make([]float64, len(e.marks)), map[int]float64{}
	for i, m := range e.marks {
		limit := m.Limit.Degrees()
		off[i] = (2*rng.Float64() - 1) * limit
		if e.kind == edges && m.Against != "" {
			if _, has := made[e.row[i]]; !has {
				made[e.row[i]] = off[i] / limit
			}
			off[i] = made[e.row[i]]*(limit-spaced) + (2*rng.Float64()-1)*spaced
		}
		for k, c := range slipped {
			off[i] += by[k] * c.shows[e.row[i]]
		}
	}
	return off
}

// workplace is where engines are measured: a protractor on the crank, and the TDC that was
// found by it.
type workplace struct {
	setup evidence.Setup
	from  lobe.From
	reads func(off float64) geometry.Angle // what a mark so many degrees after TDC reads
	lobe  func(m mark.Mark, off float64) mark.Mark
}

// aWorkplace draws one: for lobes with a protractor whose error is one curve.
func aWorkplace(t *testing.T, rng *rand.Rand, kind witnesses) (w workplace) {
	if kind != lobes {
		w.setup = marktest.Bench()
		w.from.Result = marktest.Found(t, w.setup, marktest.Readings(w.setup, 3, 0, rng.NormFloat64))
		w.reads = func(off float64) geometry.Angle {
			return marktest.Deg(3+off) + geometry.Angle(rng.NormFloat64())*w.setup.Protractor.Uncertainty()
		}
		return w
	}
	curves := benchtest.CurveKinds()
	b, session, from, err := lobetest.Bench(rng, curves[rng.IntN(len(curves))], benchtest.Protractor(0.5, 0.25))
	require.NoError(t, err)
	w.setup, w.from = session.Setup, from
	w.reads = func(off float64) geometry.Angle { return b.Mark(session, off*benchtest.Degree) }
	w.lobe = func(m mark.Mark, off float64) mark.Mark { return readLobe(t, rng, b, session, from, m, off) }
	return w
}

// readLobe is a cam's lobe in place of its flats, which is so many degrees off, as it was read.
func readLobe(t *testing.T, rng *rand.Rand, b benchtest.Bench, session benchtest.Session, from lobe.From, m mark.Mark, off float64) mark.Mark {
	l := lobe.Lobe{Name: m.Name, On: m.On, Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(), Limit: m.Limit, HasLimit: true}
	nose := 108.0
	if m.On == "exhaust cam" {
		l.Valve, nose = lobe.Exhaust, -110
	}
	c := lobetest.Drawn(rng, pick(rng, lobetest.Shapes[:2]...), l)
	c.Nose, c.Lost = nose, 0
	l.Card = lobe.Card{Lift: 1, HasEvents: true, Opens: marktest.Deg(c.Event(1, -1)), Closes: marktest.Deg(c.Event(1, 1))}
	c.Nose, c.Lost = nose+off, 0.1*(2*rng.Float64()-1)
	l.Readings = c.Readings(rng, b, session, l.Gauge, c.Planned(rng, 1))
	read, says := lobe.Measure(session.Setup.Protractor, from, l).Mark()
	require.True(t, says)
	return read
}

// measured is the engine's marks as somebody measured them, with the errors that the
// workplace and known_to state.
func (e engine) measured(rng *rand.Rand, w workplace, off []float64) []mark.Mark {
	marks := slices.Clone(e.marks)
	for i := range marks {
		switch known := e.knownTo[i]; {
		case e.kind == lobes && known > 0 && marks[i].Against == "":
			marks[i] = w.lobe(marks[i], off[i])
		case known == 0:
			marks[i].Read = []geometry.Angle{w.reads(off[i]), w.reads(off[i])}
		default:
			value := off[i] + (2*rng.Float64()-1)*known
			marks[i].Off = &mark.Shift{Value: value, Unit: mark.CrankDegrees, KnownTo: known}
		}
	}
	return marks
}

// oneWouldDo tells whether some one slip, of a joint, a mark's other half or TDC,
// leaves every mark within its limit, so that whoever knew them without error
// would find no more than that.
func (e engine) oneWouldDo(off []float64) bool {
	singles := append(slices.Clone(e.culprits), culprit{"TDC of cylinder 1", shows{1, 1, 1, 1, 1, 0, 0}},
		culprit{"G itself", shows{0, 0, 1, 0, 0, 0, 0}}, culprit{"CI itself", onlyCI}, culprit{"CE itself", onlyCE},
		culprit{"WI itself", onlyWI}, culprit{"WE itself", onlyWE})
	return slices.ContainsFunc(singles, func(c culprit) bool {
		low, high := math.Inf(-1), math.Inf(1)
		for i, column := range e.seen(c) {
			limit := e.marks[i].Limit.Degrees()
			if column != 0 {
				low, high = math.Max(low, off[i]/column-limit), math.Min(high, off[i]/column+limit)
			} else if math.Abs(off[i]) > limit {
				return false
			}
		}
		return low <= high
	})
}
