package joint_test

import (
	"math"
	"math/rand/v2"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
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
}

func pick[T any](rng *rand.Rand, list ...T) T { return list[rng.IntN(len(list))] }

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

// stands is by how much each mark is off: made anywhere within what it is allowed,
// and moved by the slips.
func (e engine) stands(rng *rand.Rand, slipped []culprit, by []float64) []float64 {
	off := make([]float64, len(e.marks))
	for i, m := range e.marks {
		off[i] = (2*rng.Float64() - 1) * m.Limit.Degrees()
		for k, c := range slipped {
			off[i] += by[k] * c.shows[e.row[i]]
		}
	}
	return off
}

// measured is the engine's marks as somebody measured them, with the errors that
// the setup and known_to state. TDC stands at 3 deg on the protractor.
func (e engine) measured(rng *rand.Rand, setup evidence.Setup, off []float64) []mark.Mark {
	marks := slices.Clone(e.marks)
	for i := range marks {
		if e.knownTo[i] == 0 {
			for range 2 {
				marks[i].Read = append(marks[i].Read, marktest.Deg(3+off[i])+geometry.Angle(rng.NormFloat64())*setup.Protractor.Uncertainty())
			}
			continue
		}
		value := off[i] + (2*rng.Float64()-1)*e.knownTo[i]
		marks[i].Off = &mark.Shift{Value: value, Unit: mark.CrankDegrees, KnownTo: e.knownTo[i]}
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
