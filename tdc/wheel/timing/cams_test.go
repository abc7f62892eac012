package timing_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/timing"
)

// twoCams are an inlet cam of three teeth and an exhaust cam of one.
func twoCams() engine {
	e := idlingEngine()
	e.turns, e.rate = 7.7, 50e3
	e.cams = [][]float64{{30, 80, 120, 300, 411.7, 600}, {200, 560}}
	return e
}

func twoCamTable() table {
	return table{header: "Time,Crank,Inlet,Exhaust\n(s),(V),(V),(V)\n\n", separator: ","}
}

// inCycle is how far an edge is from an angle, of two turns.
func inCycle(e timing.Edge, deg float64) float64 {
	return math.Abs(math.Remainder(e.Angle.Degrees()-deg, 720))
}

// Wherever a capture begins, each edge keeps its place in the cycle, and the
// first turn is the one in which the first cam has more edges: 30 to 300 deg.
func TestCycleBeginsWithTheBusierTurn(t *testing.T) {
	for _, start := range []float64{10, 250, 355, 400, 700} {
		e := twoCams()
		e.start, e.turns = start, 5.7
		r, err := measure(e.capture(twoCamTable()), "60-2", columns(2))
		require.NoError(t, err)
		require.InDelta(t, 720, r.Period.Degrees(), 1e-9)
		requireEdges(t, e, r, idleTolerance)
		for i, want := range []float64{30, 80, 120, 300, 411.7, 600, 200, 560} {
			require.Less(t, inCycle(r.Edges[i], want), idleTolerance, "from %g: %v", start, r.Edges[i])
			require.Equal(t, []signal.Way{signal.Rising, signal.Falling}[i%2], r.Edges[i].Kind)
			require.Equal(t, []string{"Inlet", "Exhaust"}[i/6], r.Edges[i].Name)
		}
		require.InDelta(t, 5, r.Edges[0].Teeth, 0.02)        // 30 deg at 6 a tooth
		require.InDelta(t, 58+8.617, r.Edges[4].Teeth, 0.02) // 360 deg and 51.7
	}
}

// A turn left out in the middle breaks the count of turns: the cam pattern takes
// it up again.
func TestCycleAfterABadTurn(t *testing.T) {
	for _, from := range []int{11000, 15500, 19000, 22000} {
		e := twoCams()
		f := twoCamTable()
		f.drop = func(row int) bool { return row > from && row <= from+250 }
		r, err := measure(e.capture(f), "60-2", columns(2))
		require.NoError(t, err)
		require.Equal(t, 1, r.TurnsLeftOut)
		requireEdges(t, e, r, idleTolerance)
		require.Len(t, r.Edges, 8)
	}
}

// A cam wheel that looks the same each turn of the crank, two teeth 180 cam deg
// apart, does not tell the turns apart, and that is said.
func TestCycleOfOneTurn(t *testing.T) {
	e := idlingEngine()
	e.cams = [][]float64{{100, 150, 460, 510}}
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.InDelta(t, 360, r.Period.Degrees(), 1e-9)
	require.Len(t, r.Edges, 2)
	require.InDelta(t, 100, r.Edges[0].Angle.Degrees(), idleTolerance)
	require.InDelta(t, 150, r.Edges[1].Angle.Degrees(), idleTolerance)
	require.Equal(t, r.TurnsUsed, r.Edges[0].Count)
	require.Equal(t, []finding.Finding{finding.OneTurnOnly{}}, r.Notes)
}

// An edge at the cycle's own seam is one edge.
func TestEdgeAtTheGap(t *testing.T) {
	e := idlingEngine()
	e.ripple, e.noise = 0.05, 0.02
	e.cams = [][]float64{{0, 180, 300, 340}}
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.Len(t, r.Edges, 4)
	requireEdges(t, e, r, idleTolerance)
}

// Edges that wander with a known standard deviation: a half-moon cam shaken by
// the simulator's noise would hide it, so the cam is shaken by hand. Cycle k's
// edge is at 100 + d[k]; the mean is 100 and the deviation that of d.
func TestSpread(t *testing.T) {
	e := idlingEngine()
	e.turns, e.ripple, e.start = 12.5, 0, 710
	d := []float64{-1, 1, -1, 1, 0, 0}
	e.cams = [][]float64{{}}
	e.wander = func(angle float64) float64 {
		cycle := int(angle/720) - 1
		if a := math.Mod(angle, 720); cycle >= 0 && cycle < len(d) && a > 100+d[cycle] && a < 300 {
			return 1
		}
		return 0
	}
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.Len(t, r.Edges, 2)
	require.InDelta(t, 100, r.Edges[0].Angle.Degrees(), 0.06) // a sample is 0.06 deg
	require.InDelta(t, math.Sqrt(4.0/5), r.Edges[0].Deviation.Degrees(), 0.06)
	require.Equal(t, 6, r.Edges[0].Count)
	require.Less(t, r.Edges[1].Deviation, geometry.Angle(0.06)*geometry.Degree)
}

// A cam with no signal is said, and the crank is still measured.
func TestCamWithoutEdges(t *testing.T) {
	e := idlingEngine()
	e.turns, e.noise = 4.5, 0.01
	e.cams = [][]float64{{}}
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.Empty(t, r.Edges)
	require.Equal(t, finding.NoCamEdge{Column: 3}, r.Notes[len(r.Notes)-1])
}

// An inductive cam sensor: one steep passage a tooth.
func TestCoilOnTheCam(t *testing.T) {
	e := idlingEngine()
	e.cams = [][]float64{{}}
	e.wander = func(angle float64) float64 {
		v := 0.0
		for _, tooth := range []float64{120, 300, 480} {
			d := math.Remainder(angle-tooth, 720) / 5
			v -= d * math.Exp(0.5-d*d/2)
		}
		return v
	}
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.Len(t, r.Edges, 3)
	var at []float64
	for _, g := range r.Edges {
		require.Equal(t, signal.Falling, g.Kind)
		at = append(at, g.Angle.Degrees())
	}
	// the busier turn first: 120 and 300, then 480
	require.InDeltaSlice(t, []float64{120, 300, 480}, at, idleTolerance)
}

// A pulse that comes once is no edge of the cam, and is said.
func TestDisturbance(t *testing.T) {
	e := idlingEngine()
	e.cams, e.start = [][]float64{{}}, 10
	e.wander = func(angle float64) float64 {
		a := math.Mod(angle, 720)
		if a > 100 && a < 300 || angle > 1500 && angle < 1510 {
			return 1
		}
		return 0
	}
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.Len(t, r.Edges, 2)
	require.Equal(t, []finding.Finding{finding.StrayPassings{Passings: 2}}, r.Notes)
}

// A straight line across the gap would be out by up to a degree or so at cranking
// speed with a ripple four times a turn; a smooth curve through neighbours is to
// stay within 0.08 (worked out apart from this package for four neighbours or more).
func TestEdgeWithinTheGap(t *testing.T) {
	for _, start := range []float64{100, 120, 145, 170} {
		e := crankingEngine()
		e.perTurn, e.start, e.cams = 4, start, [][]float64{{347, 352, 500, 709}}
		e.phase = start
		r, err := measure(e.capture(plainTable()), "60-2", columns(1))
		require.NoError(t, err)
		requireEdges(t, e, r, 0.08)
	}
}
