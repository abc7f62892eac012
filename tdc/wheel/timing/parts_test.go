package timing_test

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/timing"
)

// twoGaps is 36 places with two gaps of two: 17 teeth, a gap, 15 teeth, a gap.
func twoGaps() []float64 { return wheelEdges(36, 17, 18, 34, 35) }

// Two gaps are found where they are, whether the signal holds low, or high, or low in
// one and high in the other; in the last the edges that lead have 16 and 14 steps
// between gaps, and the others 15 and 15, which would not tell the turn.
func TestTwoGaps(t *testing.T) {
	for _, c := range []struct {
		reversed bool
		long     int
		list     string
	}{
		{false, 0, "16x10,30,14x10,30"},
		{true, 0, "16x10,30,14x10,30"},
		{false, 16, "16x10,30,14x10,30"},
		{true, 16, "16x10,30,14x10,30"},
	} {
		for _, e := range []engine{idlingEngine(), crankingEngine()} {
			e.teeth, e.width, e.reversed, e.turns = twoGaps(), 4, c.reversed, 8.4
			l := analyser()
			l.long = c.long
			for _, told := range []string{"", "36-2-2", c.list} {
				r, err := measureTold(crankAlone(e, l), told, 0)
				require.NoError(t, err)
				require.Equal(t, c.list, r.Wheel.List())
				require.Equal(t, map[bool]signal.Way{false: signal.Rising, true: signal.Falling}[c.reversed], r.CrankEdge)
				require.GreaterOrEqual(t, r.TurnsUsed, 7)
				require.Zero(t, r.TurnsLeftOut)
				require.True(t, r.PartsTold)
				require.Less(t, r.Repeat.Degrees(), 0.01)
			}
			for _, wrong := range []string{"36-2", "60-2", "36-2-2-2", "36-1-3", "18x10,30,12x10,30"} {
				_, err := measureTold(crankAlone(e, l), wrong, 0)
				requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: c.list})
			}
		}
	}
}

// thirds is 36 places in three equal thirds of ten teeth and two missing.
func thirds() []float64 { return wheelEdges(36, 10, 11, 22, 23, 34, 35) }

const thirdsList = "9x10,30,9x10,30,9x10,30"

// Equal thirds look like a turn of 12-2 at three times the speed: the cams tell, or
// nothing does, and that is said.
func TestEqualThirds(t *testing.T) {
	for _, e := range []engine{idlingEngine(), crankingEngine()} {
		e.teeth, e.width, e.turns = thirds(), 4, 8.4
		for _, told := range []string{"", "36-2-2-2", thirdsList} {
			data, _ := e.list(analyser())
			r, err := measureTold(data, told, 1)
			require.NoError(t, err)
			require.Equal(t, thirdsList, r.Wheel.List())
			require.True(t, r.PartsTold)
			require.InDelta(t, 720, r.Period.Degrees(), 1e-9)
			require.GreaterOrEqual(t, r.TurnsUsed, 7)
			require.InDelta(t, e.rpm*(1+e.ripple), r.RPMMax, 0.02*e.rpm) // over 20 deg, in which the ripple of 180 falls by 2 %
			requireEdgesByThirds(t, e, r)
		}
		data, _ := e.list(analyser())
		for _, wrong := range []string{"12-2", "36-2", "60-2", "24-2-2", "36-2-2"} {
			_, err := measureTold(data, wrong, 1)
			requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: thirdsList})
			require.Len(t, err.(*fault.Fault).Try, 1, wrong)
		}
		alone := crankAlone(e, analyser())
		for _, untold := range []string{"", "36-2", "60-2"} {
			_, err := measureTold(alone, untold, 0)
			require.ErrorContains(t, err, "alone does not show how often in a turn", untold)
			requireTry(t, err, fault.Try{Say: fault.AddCams})
			requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: thirdsList, Name: "36-2-2-2", Parts: 3})
		}
		r, err := measureTold(alone, "36-2-2-2", 0)
		require.NoError(t, err)
		require.False(t, r.PartsTold)
		require.Equal(t, 3, noted[finding.PartsUntold](t, r.Notes).Parts)
		r, err = measureTold(alone, "12-2", 0)
		require.NoError(t, err)
		require.Contains(t, r.Notes, finding.MaybeThirds{Wheel: "12-2", Thirds: "36-2-2-2"})
	}
}

// requireEdgesByThirds holds the edges against those simulated, from whichever third
// they count: the same for all.
func requireEdgesByThirds(t *testing.T, e engine, r timing.Result) {
	t.Helper()
	best := math.Inf(1)
	for third := range 6 {
		worst := 0.0
		for i, want := range e.cams[0] {
			least := math.Inf(1)
			for _, g := range r.Edges {
				if (g.Kind == signal.Rising) == (i%2 == 0) {
					least = math.Min(least, math.Abs(math.Remainder(g.Angle.Degrees()-want-120*float64(third), 720)))
				}
			}
			worst = math.Max(worst, least)
		}
		best = math.Min(best, worst)
	}
	require.Len(t, r.Edges, len(e.cams[0]))
	t.Logf("worst edge %.4f deg", best)
	require.LessOrEqual(t, best, 2*betweenTeeth) // ten degrees a tooth, and a tick
}

// Wherever a capture begins, and with a turn spoilt in the middle, the same third is
// the first one, and no edge moves from one capture to the next.
func TestEqualThirdsFromAnywhere(t *testing.T) {
	var first timing.Result
	for i, start := range []float64{5, 100, 130, 250, 365, 500, 610} {
		e := idlingEngine()
		e.teeth, e.width, e.turns, e.start = thirds(), 4, 9.4, start
		data, _ := e.list(analyser())
		if i > 3 {
			lines := bytes.SplitAfter(data, []byte("\n"))
			data = bytes.Join(append(slices.Clone(lines[:300]), lines[306:]...), nil)
		}
		r, err := measureTold(data, thirdsList, 1)
		require.NoError(t, err)
		if i == 0 {
			first = r
		}
		require.Len(t, r.Edges, len(first.Edges))
		for k := range r.Edges {
			require.InDelta(t, 0, math.Remainder((r.Edges[k].Angle-first.Edges[k].Angle).Degrees(), 720), 2*betweenTeeth, "from %g", start)
		}
		c, err := compare.Compare(first, r)
		require.NoError(t, err)
		require.Equal(t, finding.NoEdgeMoved{}, c.Finding)
	}
}

// Of equal thirds a tooth that stands wrong is the one that does in every turn.
func TestChippedToothOfThirds(t *testing.T) {
	e := idlingEngine()
	e.teeth, e.width, e.turns, e.chipped, e.chip = thirds(), 4, 9.4, 14, 1.5
	data, _ := e.list(analyser())
	r, err := measureTold(data, thirdsList, 1)
	require.NoError(t, err)
	require.Len(t, r.Rough, 1)
	require.Equal(t, 4, r.Rough[0].Tooth%10)
	require.InDelta(t, 1.5, r.Rough[0].Off.Degrees(), 0.05)
}

// Three equal teeth of a cam repeat every two thirds of a turn, and tell equal
// thirds of the crank wheel only so far: that is said, and what else it may be.
func TestCamOfThreeEqualTeeth(t *testing.T) {
	e := idlingEngine()
	e.teeth, e.width, e.turns, e.cams = thirds(), 4, 9.4, [][]float64{{30, 80, 270, 320, 510, 560}}
	data, _ := e.list(analyser())
	r, err := measureTold(data, thirdsList, 1)
	require.NoError(t, err)
	require.False(t, r.PartsTold)
	require.InDelta(t, 240, r.Period.Degrees(), 1e-9)
	require.Len(t, r.Edges, 2)
	require.InDelta(t, 50, (r.Edges[1].Angle - r.Edges[0].Angle).Degrees(), 2*betweenTeeth)
	require.Contains(t, r.Notes, finding.CamsInThirds{Wheel: thirdsList})
	untold := noted[finding.PartsUntold](t, r.Notes)
	require.Equal(t, 1, untold.Cams)
	require.InDelta(t, 240, untold.Period.Degrees(), 1e-9)
}

// Captures of different crank wheels are not compared.
func TestOtherWheelIsNotCompared(t *testing.T) {
	e := idlingEngine()
	data, _ := e.list(analyser())
	one, err := measureTold(data, "60-2", 1)
	require.NoError(t, err)
	e.teeth, e.width = twoGaps(), 4
	data, _ = e.list(analyser())
	other, err := measureTold(data, "", 1)
	require.NoError(t, err)
	_, err = compare.Compare(one, other)
	require.ErrorContains(t, err, "the crank wheel is 60-2 in one capture and 16x10,30,14x10,30 in the other")
}
