package slip

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/refit"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// setupOf is an invented petrol four read with a dial and a protractor of a step and an
// error in degrees.
func setupOf(step, bound float64) evidence.Setup {
	return evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: benchtest.Protractor(step, bound), Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
}

// readOn is a session read on a bench drawn from a setup with a seed, and TDC at its end.
func readOn(setup evidence.Setup, l benchtest.Layout, seed uint64, lash float64, slips ...benchtest.Slip) ([]evidence.Reading, float64) {
	rng := rand.New(rand.NewPCG(seed, 3))
	b := benchtest.Drawn(rng, setup)
	if lash > 0 {
		b.Lash = lash
		b = b.Settled()
	}
	s := benchtest.Session{Setup: setup, Layout: l, Slips: slips}
	return b.ReadIn(rng, s), b.TrueAtEnd(s)
}

// lookAt is what is told of readings.
func lookAt(t *testing.T, setup evidence.Setup, read []evidence.Reading) Told {
	t.Helper()
	a := fitted(t, setup, read)
	told := Look(a, setup.Protractor, read, false)
	return told
}

// Steps are told with their kind, place and size, and TDC with both ends of the session,
// wherever they are and however many the readings.
func TestLook(t *testing.T) {
	for _, c := range []struct {
		readings int
		slip     benchtest.Slip
		kind     Kind
	}{
		{24, benchtest.Slip{After: 12, Angle: 1}, Protractor}, {24, benchtest.Slip{After: 12, Angle: -5}, Protractor},
		{12, benchtest.Slip{After: 4, Angle: 2}, Protractor}, {24, benchtest.Slip{After: 12, Depth: 0.1}, GaugeZero},
		{24, benchtest.Slip{After: 18, Depth: -0.3}, GaugeZero}, {200, benchtest.Slip{After: 57, Angle: -0.7}, Protractor},
		{200, benchtest.Slip{After: 100, Depth: 0.06}, GaugeZero},
	} {
		name := fmt.Sprintf("%d readings, %+v", c.readings, c.slip)
		setup := setupOf(0.5, 0.25)
		read, end := readOn(setup, benchtest.Balanced(2, c.readings), 5, 0, c.slip)
		told := lookAt(t, setup, read)
		require.NotNil(t, told.Slip, name)
		require.Greater(t, told.Moved, alarm, name)
		require.Equal(t, c.kind, told.Slip.Kind, name)
		require.InDelta(t, c.slip.After, told.Slip.After, float64(c.readings)/24, name)
		size := c.slip.Depth
		if c.kind == Protractor {
			size = c.slip.Angle * deg
		}
		require.InDelta(t, size, told.Slip.Size, 3*told.Slip.Uncertainty, name)
		tdc := told.Fit.Averaged()
		require.InDelta(t, 0, (tdc.Angle - geometry.Angle(end)).Signed().Degrees(), tdc.Expanded.Degrees(), name)
		before := told.Slip.Before
		require.InDelta(t, 0, (before.Angle - geometry.Angle(end-c.slip.Angle*deg)).Signed().Degrees(), before.Expanded.Degrees(), name)
	}
}

// Healthy readings move nothing, worn bearings are told from a step, and of few readings
// nothing is told.
func TestLookAtNothing(t *testing.T) {
	setup := setupOf(0.5, 0.25)
	read, _ := readOn(setup, benchtest.Balanced(2, 24), 5, 0)
	healthy := lookAt(t, setup, read)
	require.Nil(t, healthy.Slip)
	require.False(t, healthy.Worn)
	require.Less(t, healthy.Moved, 0.3)
	require.Positive(t, healthy.Fit.Doubt, "what may have moved is in the interval all the same")
	require.Less(t, math.Abs(float64(healthy.Fit.Shift)), float64(healthy.Fit.AgreeTo().Expanded)/2)

	read, _ = readOn(setup, benchtest.Balanced(2, 24), 5, 0.4)
	worn := lookAt(t, setup, read)
	require.Nil(t, worn.Slip)
	require.True(t, worn.Worn)
	require.InDelta(t, 0.4, worn.Fit.Lash().Value, 3*worn.Fit.Lash().Uncertainty)

	read, _ = readOn(setup, benchtest.Balanced(2, 24), 5, 0, benchtest.Slip{After: 4, Angle: 5})
	few := lookAt(t, setup, read[1:fewest])
	require.Equal(t, Told{Fit: few.Fit}, few)
}

// Readings that do not belong, such as the lifts of a cam typed as depths of the piston, are no
// step: none is told that may as well be nothing. The readings are those of an invented V8, in
// inches, and two lifts of nothing.
func TestNoStepOfNothing(t *testing.T) {
	setup := evidence.Setup{Engine: benchtest.Engine(3.56*25.4, 5.93*25.4), Protractor: benchtest.Protractor(0.5, 0.25), Gauge: benchtest.Gauge(evidence.Dial, 0.0005*25.4, 0.001*25.4)}
	angles := []float64{339, 342, 344, 346, 348, 18, 20, 22, 24, 27}
	depths := [][]float64{
		{207, 162, 136, 110, 87, 91, 113, 140, 165, 211}, // thousandths of an inch
		{204, 160, 135, 109, 86, 93, 115, 141, 167, 212},
	}
	var read []evidence.Reading
	add := func(turn evidence.TurnDirection, angle, thou float64) {
		read = append(read, evidence.Reading{Angle: geometry.Angle(angle) * geometry.Degree, Depth: geometry.Length(thou * 0.0254), Turn: turn})
	}
	for i := range angles {
		add(evidence.Forward, angles[i], depths[0][i])
	}
	for i := range angles {
		add(evidence.Backward, angles[9-i], depths[1][9-i])
	}
	add(evidence.Forward, 339, 207)
	add(evidence.Forward, 342, 162)
	add(evidence.Forward, 3, 11)
	add(evidence.Forward, 354, 0)
	add(evidence.Forward, 359, 0)
	for n := 24; n <= len(read); n++ {
		told := lookAt(t, setup, read[:n])
		if told.Slip != nil {
			require.Greater(t, math.Abs(told.Slip.Size), gum.Normal95*told.Slip.Uncertainty, "%d readings: %+v", n, told.Slip)
		}
	}
}

// A turn is doubted where the order of the readings does not confirm it, and found wrong.
func TestTurns(t *testing.T) {
	setup := setupOf(0.05, 0.1)
	read, _ := readOn(setup, benchtest.Balanced(2, 24), 5, 0.1)
	s := newSession(read, setup.Protractor.Still(), false)
	require.Len(t, s.runs, 2)
	require.Empty(t, s.turns(), "both go on as they were turned")
	for i := 12; i < 24; i++ {
		read[i].Turn = evidence.Forward
	}
	for i := range 12 {
		read[i].Turn = evidence.Backward
	}
	s = newSession(read, setup.Protractor.Still(), false)
	require.Len(t, s.turns(), 3, "each run's, and both")
	told := lookAt(t, setup, read)
	require.NotNil(t, told.Slip)
	require.Equal(t, Turn, told.Slip.Kind)
	require.Zero(t, told.Slip.After)
	require.Equal(t, 24, told.Slip.To)
	require.Zero(t, told.Slip.Size)
	one := newSession(read[:12], setup.Protractor.Still(), false)
	require.Equal(t, oneWay, one.chances)
	require.Len(t, one.turns(), 1)
}

// A part may have moved after any reading but the first and the last, and where the crank
// was turned back most of all; pairs of angles may have been taken on either side.
func TestPlaces(t *testing.T) {
	setup := setupOf(0.5, 0.25)
	read, _ := readOn(setup, benchtest.Balanced(4, 24), 5, 0)
	s := newSession(read, setup.Protractor.Still(), true)
	atTurn, elsewhere := s.places()
	require.Equal(t, []int{6, 12, 18}, atTurn)
	require.Len(t, elsewhere, 24-3-3)
	require.Equal(t, 2, elsewhere[0])
	require.Equal(t, 22, elsewhere[len(elsewhere)-1])
	sum := 0.0
	moves := s.moves(curve.Protractor, atTurn, 0.09, hypothesis{})
	for _, h := range moves {
		sum += h.chance
	}
	require.Len(t, moves, 6)
	require.InDelta(t, 0.09, sum, 1e-12)
	require.True(t, moves[1].PairsBefore && !moves[0].PairsBefore)
	require.Len(t, s.moves(curve.GaugeZero, atTurn, 0.09, hypothesis{}), 3, "the gauge is not in a pair of angles")
}

// Of many places those that may tell are refitted, not all, in long sweeps and where the
// crank was turned back again and again.
func TestManyPlaces(t *testing.T) {
	setup := setupOf(0.5, 0.25)
	for _, sweeps := range []int{2, 100} {
		read, _ := readOn(setup, benchtest.Balanced(sweeps, 400), 5, 0, benchtest.Slip{After: 100, Angle: 1})
		a := fitted(t, setup, read)
		list := newlyTried(t, newSession(read, setup.Protractor.Still(), false), refit.New(a, setup.Protractor.Step, asStated))
		require.Less(t, len(list), 80, "%d sweeps", sweeps)
		weigh(list)
		require.InDelta(t, 100, best(list, func(w weighed) bool { return w.moved() }).After, 4, "%d sweeps", sweeps)
		require.InDelta(t, 1, probability(list, func(weighed) bool { return true }), 1e-12)
	}
}

// Angles read to a coarser step than stated are taken as read so.
func TestStepSeen(t *testing.T) {
	p := benchtest.Protractor(0.5, 0.25)
	at := func(degrees ...float64) (read []evidence.Reading) {
		for _, d := range degrees {
			read = append(read, evidence.Reading{Angle: geometry.Angle(d) * geometry.Degree})
		}
		return read
	}
	require.Equal(t, geometry.Degree, stepSeen(p, at(3, 340, -7)))
	require.Equal(t, 5*geometry.Degree, stepSeen(p, at(5, 340, -15)))
	require.Equal(t, p.Step, stepSeen(p, at(3, 340.5)))
	require.Equal(t, 0.1*geometry.Degree, stepSeen(benchtest.Protractor(0.1, 0.1), at(3.2, 7)))
	setup := setupOf(0.1, 0.09)
	alarms := [2]int{}
	for seed := range uint64(60) { // rounded to a degree, as nobody stated
		read, _ := readOn(setupOf(1, 0.09), benchtest.Balanced(2, 12), seed, 0)
		a := fitted(t, setup, read)
		for i, step := range []geometry.Angle{setup.Protractor.Step, stepSeen(setup.Protractor, read)} {
			list := newlyTried(t, newSession(read, setup.Protractor.Still(), false), refit.New(a, step, asStated))
			weigh(list)
			if probability(list, func(w weighed) bool { return w.moved() }) > alarm {
				alarms[i]++
			}
		}
	}
	require.Greater(t, alarms[0], alarms[1]+5, "taken as finer, rounding looks like steps")
	require.LessOrEqual(t, alarms[1], 6)
}

// The further TDC's middle lies from the curve's, the more of it is followed: not at all
// while it is nearly even, and wholly from twice that on.
func TestBeyond(t *testing.T) {
	for x, want := range map[float64]float64{0: 0, 0.5: 0, 1: 0, 1.5: 1, 2: 2, 3: 3, -1.5: -1, -4: -4} {
		require.Equal(t, want, beyond(x, 1))
	}
}

// What a hypothesis gains counts the less the more the readings scatter about the best
// one: here twice as much as the instruments explain.
func TestWeigh(t *testing.T) {
	list := []weighed{{hypothesis: hypothesis{chance: 0.8}}, {hypothesis: hypothesis{chance: 0.1}}, {hypothesis: hypothesis{chance: 0.1}}}
	list[0].Cost, list[1].Cost, list[2].Cost = 50, 42, 50
	list[1].ChiSquare, list[1].Degrees = 40, 10
	list[2].LnRoom = -2
	weigh(list)
	require.InDelta(t, 8.0/2/4, math.Log(list[1].weight/list[0].weight)-math.Log(0.1/0.8), 1e-12)
	require.InDelta(t, -2, math.Log(list[2].weight/list[0].weight)-math.Log(0.1/0.8), 1e-12)
	list[2].LnRoom = 2
	weigh(list)
	require.InDelta(t, 0, math.Log(list[2].weight/list[0].weight)-math.Log(0.1/0.8), 1e-12, "room to spare is no reason")
	require.InDelta(t, 1, probability(list, func(weighed) bool { return true }), 1e-12)
}

// What else may have moved is told where it is about as probable: another part, or the same far
// off in the session; not the same part a reading or two off, nor a step that may be nothing.
func TestInstead(t *testing.T) {
	move := func(part curve.Part, after int, weight float64) (w weighed) {
		w.Part, w.After, w.weight = part, after, weight
		w.Step, w.StepSigma, w.Widened = 0.2, 0.02, 1
		return w
	}
	told := move(curve.GaugeZero, 8, 0.6)
	for _, c := range []struct {
		other weighed
		told  bool
	}{
		{move(curve.Protractor, 8, 0.3), true}, {move(curve.Protractor, 8, 0.1), false},
		{move(curve.GaugeZero, 11, 0.3), true}, {move(curve.GaugeZero, 5, 0.3), true}, {move(curve.GaugeZero, 10, 0.3), false},
	} {
		or := instead([]weighed{{weight: 0.1}, told, c.other}, told)
		require.Equal(t, c.told, or != nil, "%+v", c.other.Assumption)
		if or != nil {
			require.Equal(t, c.other.After, or.After)
		}
		c.other.StepSigma = 1
		require.Nil(t, instead([]weighed{told, c.other}, told), "a step that may be nothing")
	}
	turned := weighed{weight: 0.4}
	turned.From, turned.To = 12, 18
	or := instead([]weighed{told, turned}, told)
	require.Equal(t, Turn, or.Kind)
	require.Equal(t, []int{12, 18}, []int{or.After, or.To})
}

// A step great enough is told wherever it is, though hardly any was expected there.
func TestScan(t *testing.T) {
	list := []weighed{{}, {}, {}}
	list[0].Cost, list[1].Cost, list[2].Cost = 40, 30, 12
	list[1].Assumption.Lash = wornLash
	list[2].Part = curve.Protractor
	list[2].ChiSquare, list[2].Degrees = 40, 10
	list[2].Step, list[2].StepSigma, list[2].Widened = 0.2, 0.05, 2
	require.Equal(t, (30.0-12)/4, scan(list))
	list[2].Step = 0.19
	require.Negative(t, scan(list), "a step that may be nothing gains nothing")
	require.InDelta(t, 3+2*math.Log(42), scanLimit(24), 1e-12)
}
