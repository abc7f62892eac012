package timing_test

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/finding"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/capture"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/timing"
)

// A dropped stretch of rows longer than a tooth costs its turn and no other; one
// shorter than a sample's worth of angle costs nothing.
func TestMissingSamples(t *testing.T) {
	e := idlingEngine()
	whole, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	f := plainTable()
	f.drop = func(row int) bool { return row > 30000 && row <= 30200 } // 2.5 ms: 2 teeth
	r, err := measure(e.capture(f), "60-2", columns(1))
	require.NoError(t, err)
	require.Equal(t, whole.TurnsUsed-1, r.TurnsUsed)
	require.Equal(t, 1, r.TurnsLeftOut)
	requireEdges(t, e, r, idleTolerance)

	f.drop = func(row int) bool { return row%1000 == 7 }
	r, err = measure(e.capture(f), "60-2", columns(1))
	require.NoError(t, err)
	require.Equal(t, whole.TurnsUsed, r.TurnsUsed)
	requireEdges(t, e, r, idleTolerance)
}

// A hole of most of a turn leaves few of its teeth, and is still one turn left out.
func TestMostOfATurnMissing(t *testing.T) {
	e := idlingEngine()
	f := plainTable()
	from := int(e.rate * (360*2 + 30 - e.start) / (6 * e.rpm)) // 30 deg into a turn, on the mean
	f.drop = func(row int) bool { return row > from && row <= from+int(e.rate*270/(6*e.rpm)) }
	r, err := measure(e.capture(f), "60-2", columns(1))
	require.NoError(t, err)
	require.Equal(t, 1, r.TurnsLeftOut)
	requireEdges(t, e, r, idleTolerance)
}

// A chipped tooth is named with what it is off by, late positive.
func TestChippedToothIsNamed(t *testing.T) {
	e := idlingEngine()
	e.chipped, e.chip = 20, 1.2
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.Len(t, r.Rough, 1)
	require.Equal(t, 20, r.Rough[0].Tooth)
	require.InDelta(t, 1.2, r.Rough[0].Off.Degrees(), 0.05) // a cubic through neighbours at 5 % ripple
	require.InDelta(t, 760, r.RPMMin, 3)
	require.InDelta(t, 840, r.RPMMax, 3)
}

// A tooth broken off is in no turn: the wheel that is there is said, and works
// when it is typed.
func TestBrokenTooth(t *testing.T) {
	e := idlingEngine()
	e.teeth = wheelEdges(60, 22, 58, 59)
	data := e.capture(plainTable())
	_, err := measure(data, "60-2", columns(1))
	requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: "21x6,12,34x6,18"})
	r, err := measure(data, "21x6,12,34x6,18", columns(1))
	require.NoError(t, err)
	requireEdges(t, e, r, idleTolerance)
	require.Empty(t, r.Rough)
}

// A wheel that does not match is refused with the one that is seen.
func TestWrongWheel(t *testing.T) {
	for seen, teeth := range map[string][]float64{
		"60-2":               sixtyTwo(),
		"36-1":               wheelEdges(36, 35),
		"36-2":               wheelEdges(36, 34, 35),
		"24-1":               wheelEdges(24, 23),
		"18x10,30,9x10,2x30": thirtySixThree(),
	} {
		e := idlingEngine()
		e.teeth, e.width, e.turns = teeth, 3, 4.7
		data := e.capture(plainTable())
		asked := "60-2"
		if seen == asked {
			asked = "36-1"
		}
		_, err := measure(data, asked, columns(1))
		requireTry(t, err, fault.Try{Say: fault.TheWheel, Wheel: seen})
		_, err = measure(data, seen, columns(1))
		require.NoError(t, err)
	}
}

// thirtySixThree is 36-2-2-2: gaps after the 19th, 29th and 30th edge.
func thirtySixThree() []float64 { return wheelEdges(36, 19, 20, 31, 32, 34, 35) }

// 36-2-2-2 has three gaps; angles count from the first edge of its longest row.
func TestThreeGaps(t *testing.T) {
	for _, coil := range []bool{false, true} {
		e := crankingEngine()
		e.teeth, e.width, e.inductive = thirtySixThree(), 4, coil
		r, err := measure(e.capture(plainTable()), "36-2-2-2", columns(1))
		require.NoError(t, err)
		require.Zero(t, r.TurnsLeftOut)
		// ten degrees a tooth and gaps of thirty: five thirds of 60-2's tolerance
		requireEdges(t, e, r, crankingTolerance*10/6)
	}
}

// Few teeth and no speed ripple: 4-1 and 12-1 on a steady engine.
func TestFewTeeth(t *testing.T) {
	for name, teeth := range map[string][]float64{"4-1": wheelEdges(4, 3), "12-1": wheelEdges(12, 11)} {
		for _, coil := range []bool{false, true} {
			e := idlingEngine()
			e.teeth, e.width, e.inductive, e.ripple = teeth, 10, coil, 0
			r, err := measure(e.capture(plainTable()), name, columns(1))
			require.NoError(t, err, name)
			requireEdges(t, e, r, idleTolerance)
		}
	}
}

// Reversed leads are half a pitch out to who counts the other crossing; they are
// said, and the angles stay.
func TestReversedLeadsAreSaid(t *testing.T) {
	e := crankingEngine()
	e.inductive = true
	for _, reversed := range []bool{false, true} {
		e.reversed = reversed
		r, err := measure(e.capture(plainTable()), "60-2", columns(1))
		require.NoError(t, err)
		require.Equal(t, reversed, slices.Contains(r.Notes, finding.Finding(finding.LeadsReversed{})))
		require.Equal(t, map[bool]signal.Way{false: signal.Falling, true: signal.Rising}[reversed], r.CrankEdge)
		requireEdges(t, e, r, crankingTolerance)
	}
}

// The way that the user insists on is taken, if the wheel shows that way: a
// tooth's trailing edge is its width later, so cams read that much less.
func TestCrankEdgeAsked(t *testing.T) {
	e := idlingEngine()
	data := e.capture(plainTable())
	w, err := wheel.Parse("60-2")
	require.NoError(t, err)
	s, err := capture.Look(bytes.NewReader(data), columns(1))
	require.NoError(t, err)
	trace, err := capture.Time(bytes.NewReader(data), s)
	require.NoError(t, err)
	leading, err := timing.Measure(trace, w, signal.Rising)
	require.NoError(t, err)
	trailing, err := timing.Measure(trace, w, signal.Falling)
	require.NoError(t, err)
	require.Len(t, trailing.Edges, len(leading.Edges))
	for i := range leading.Edges {
		off := math.Remainder((leading.Edges[i].Angle - trailing.Edges[i].Angle).Degrees(), 360)
		require.InDelta(t, e.width, off, idleTolerance)
	}
}

// A coil's slow crossing is between teeth, and no edge of one.
func TestSlowCrossingIsRefused(t *testing.T) {
	e := crankingEngine()
	e.inductive = true
	data := e.capture(plainTable())
	w, err := wheel.Parse("60-2")
	require.NoError(t, err)
	s, err := capture.Look(bytes.NewReader(data), columns(1))
	require.NoError(t, err)
	trace, err := capture.Time(bytes.NewReader(data), s)
	require.NoError(t, err)
	_, err = timing.Measure(trace, w, signal.Rising)
	requireTry(t, err, fault.Try{Say: fault.NoCrankEdge})
}

// An engine that stands at first, then is cranked, then stops.
func TestStandsFirst(t *testing.T) {
	for _, coil := range []bool{false, true} {
		e := crankingEngine()
		e.inductive, e.noise = coil, 0.01
		data := e.capture(table{header: "s,V,V\n", separator: ","})
		var still bytes.Buffer
		still.WriteString("s,V,V\n")
		for i := range 40000 {
			still.WriteString(standing(i, coil, e.rate))
		}
		still.Write(data[len("s,V,V\n"):])
		r, err := measure(still.Bytes(), "60-2", columns(1))
		require.NoError(t, err)
		requireEdges(t, e, r, crankingTolerance)
		require.GreaterOrEqual(t, r.TurnsUsed, 4)
	}
}

// standing is a row of an engine at rest, before the simulation's first.
func standing(i int, coil bool, rate float64) string {
	v := 0.0
	if !coil {
		v = 5
	}
	v += 0.05 * math.Sin(float64(i))
	return strconv.FormatFloat(float64(i-40000)/rate-0.1, 'f', 7, 64) + "," + strconv.FormatFloat(v, 'f', 3, 64) + ",0.02\n"
}
