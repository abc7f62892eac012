package timing_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/capture"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/timing"
)

// Exact edges leave what is between two teeth: the sixth-order curve through the
// neighbours, beside the logger's tick; within a gap it is 0.08 deg off at most at
// cranking speed with four ripples a turn (worked out apart from this package).
const (
	betweenTeeth = 0.002
	withinGap    = 0.08
)

func TestListOfChanges(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*engine, *logger)
	}{
		{"edges in the gap", func(e *engine, _ *logger) { e.perTurn, e.cams = 4, [][]float64{{347, 352, 500, 709}} }},
		{"clean", func(*engine, *logger) {}},
		{"gap high", func(e *engine, _ *logger) { e.reversed = true }},
		{"bounce at every tenth edge", func(_ *engine, l *logger) { l.bounce = 10 }},
		{"bounce at every edge, gap high", func(e *engine, l *logger) { e.reversed, l.bounce = true, 1 }},
		{"bounce at the start", func(_ *engine, l *logger) { l.early = 200 }},
		{"another channel", func(_ *engine, l *logger) { l.channels = 3 }},
		{"two cams", func(e *engine, l *logger) { l.channels, e.cams = 3, append(e.cams, []float64{200, 560}) }},
		{"ripple of eight cylinders", func(e *engine, _ *logger) { e.perTurn = 4 }},
		{"no standing", func(_ *engine, l *logger) { l.standing = 0 }},
		{"coarse", func(_ *engine, l *logger) { l.tick = 1e-6 }},
	} {
		for _, idle := range []bool{true, false} {
			e, speed, tolerance := crankingEngine(), "cranking", betweenTeeth
			if idle {
				e, speed = idlingEngine(), "idling"
			}
			if c.name == "edges in the gap" {
				tolerance = withinGap
			}
			l := analyser()
			c.change(&e, &l)
			tolerance += l.tick * e.rpm * 6 * (1 + e.ripple)
			t.Run(c.name+", "+speed, func(t *testing.T) {
				data, bounces := e.list(l)
				r, err := measure(data, "60-2", columns(len(e.cams)))
				require.NoError(t, err)
				require.True(t, r.Changes)
				require.LessOrEqual(t, r.Bounce, bounces) // those of other channels are not looked at
				require.Equal(t, bounces > 0, r.Bounce > 0)
				require.Equal(t, map[bool]signal.Way{false: signal.Rising, true: signal.Falling}[e.reversed], r.CrankEdge)
				require.Zero(t, r.TurnsLeftOut)
				require.Empty(t, r.Rough)
				require.Len(t, r.Notes, map[bool]int{true: 1}[bounces > 0], r.Notes)
				requireEdges(t, e, r, tolerance)
			})
		}
	}
}

// Samples are no list of changes, though they have two levels; and a list whose
// signal has three is refused, since what it did between rows is not known.
func TestSamplesAreNoList(t *testing.T) {
	e := idlingEngine()
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.False(t, r.Changes)
	// nor with a column beside them that changes in every row, since they are even
	var ticking bytes.Buffer
	for i, line := range bytes.Split(bytes.TrimSpace(e.capture(plainTable())), []byte("\n")) {
		fmt.Fprintf(&ticking, "%s,%d\n", line, i%2)
	}
	r, err = measure(ticking.Bytes(), "60-2", columns(1))
	require.NoError(t, err)
	require.False(t, r.Changes)
	data, _ := e.list(analyser())
	_, err = measure(append(data, "99, 0.5, 0\n"...), "60-2", columns(1))
	require.ErrorContains(t, err, "column 2 has more levels than two")
}

// crankAlone is a capture of the crank, of any wheel.
func crankAlone(e engine, l logger) []byte {
	e.cams, l.channels = nil, 1
	data, _ := e.list(l)
	return data
}

// measureTold reads a capture of a wheel told as a user may.
func measureTold(data []byte, told string, cams int) (timing.Result, error) {
	return measure(data, told, columns(cams))
}

// The crank alone tells its teeth, its gaps, its speed, and which tooth stands wrong.
func TestCrankAlone(t *testing.T) {
	e := idlingEngine()
	e.chipped, e.chip = 20, 1.2
	for _, told := range []string{"60-2", ""} {
		for _, data := range [][]byte{crankAlone(e, analyser()), e.capture(plainTable())} {
			r, err := measureTold(data, told, 0)
			require.NoError(t, err)
			require.Equal(t, 58, r.Wheel.Teeth())
			require.Equal(t, "57x6,18", r.Wheel.List())
			require.Equal(t, 7, r.TurnsUsed+r.TurnsLeftOut+map[bool]int{true: 1}[r.TurnsUsed == 6])
			require.Empty(t, r.Edges)
			require.Len(t, r.Rough, 1)
			require.Equal(t, 20, r.Rough[0].Tooth)
			require.InDelta(t, 1.2, r.Rough[0].Off.Degrees(), 0.05) // a cubic through neighbours at 5 % ripple
			require.InDelta(t, 760, r.RPMMin, 3)
			require.InDelta(t, 840, r.RPMMax, 3)
			require.Less(t, r.Repeat.Degrees(), 0.05)
			require.Equal(t, told == "", slices.Contains(r.Notes, finding.Finding(finding.WheelFromSignal{Wheel: "60-2"})))
		}
	}
}

// A sensor that sends a pulse of 45 us for every tooth, as some do to tell the
// direction of turning (common practice, no source), sends no bounce.
func TestShortPulsesAreTeeth(t *testing.T) {
	e := crankingEngine()
	e.width = 45e-6 * e.rpm * 6
	r, err := measureTold(crankAlone(e, analyser()), "60-2", 0)
	require.NoError(t, err)
	require.Zero(t, r.Bounce)
	require.GreaterOrEqual(t, r.TurnsUsed, 4)
}

// Times of few digits are said, and one that comes twice is no fault.
func TestListOfFewDigits(t *testing.T) {
	e := idlingEngine()
	l := analyser()
	l.tick = 100e-6
	data, _ := e.list(l)
	r, err := measure(bytes.ReplaceAll(data, []byte("0000,"), []byte(",")), "60-2", columns(1))
	require.NoError(t, err)
	require.Len(t, r.Notes, 1)
	coarse := noted[finding.CoarseTimes](t, r.Notes)
	require.True(t, coarse.Digits)
	require.InDelta(t, 0.48, coarse.Step.Degrees(), 0.005) // 100 us at 800 rev/min
	requireEdges(t, e, r, 0.48)
}

// A list longer than what is kept is used as far as that goes, and this is said.
func TestLongList(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("Time[s],crank\n")
	for i := range 1_050_000 {
		tooth := i / 2 % 58
		angle := 360*float64(i/116) + 6*float64(tooth) + 3*float64(i%2)
		b.WriteString(strconv.FormatFloat(angle/6000, 'f', 6, 64) + map[int]string{0: ",1\n", 1: ",0\n"}[i%2])
	}
	r, err := measureTold(b.Bytes(), "60-2", 0)
	require.NoError(t, err)
	require.Equal(t, 1_000_000/116-1, r.TurnsUsed) // high in the first row: no edge, and so no first turn
	part := noted[finding.UsedInPart](t, r.Notes)
	require.Equal(t, 1_000_000, part.Edges)
	require.InDelta(t, 517.2, part.Seconds, 0.1) // so many edges at 1000 rev/min: 116 a turn of 0.06 s
}

// A capture whose signal comes back every so-manyth sample is looked at elsewhere
// too: its crank is high for one sample in eight, at the same one each time.
func TestSignalInStepWithSamples(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("s,V,V\n")
	for i := range 300_000 {
		crank, cam := 4.91, 0.0
		if a := i % 480; a < 464 && a%8 == 3 {
			crank = 0.02
		}
		if a := i % 960; a >= 100 && a < 300 {
			cam = 5
		}
		fmt.Fprintf(&b, "%.5f,%g,%g\n", float64(i)*1e-4, crank, cam)
	}
	r, err := measure(b.Bytes(), "60-2", columns(1))
	require.NoError(t, err)
	require.GreaterOrEqual(t, r.TurnsUsed, 300_000/480-2)
	require.Len(t, r.Edges, 2)
}

// Columns may be headed with a digit: they are headings still.
func TestHeadingsWithDigits(t *testing.T) {
	_, err := measure([]byte("Time[s], Channel 0, Channel 1\n0,1,1\n1,0,1\n2,1,0\n3,0,0\n"), "60-2", capture.Request{Time: "1", Crank: "nix"})
	require.ErrorContains(t, err, `line 1: no column is headed "nix": expected one of Time[s], Channel 0, Channel 1`)
}

// Of noise, what was looked at is said with the refusal.
func TestLongNoise(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	var b bytes.Buffer
	b.WriteString("Time[s],crank\n")
	at := 0.0
	for i := range 1_050_000 {
		at += 1e-4 * math.Exp(random.NormFloat64())
		b.WriteString(strconv.FormatFloat(at, 'f', 7, 64) + map[int]string{0: ",1\n", 1: ",0\n"}[i%2])
	}
	_, err := measureTold(b.Bytes(), "60-2", 0)
	require.ErrorContains(t, err, "of the capture, as many as are kept at once, and no turn of 60-2 among them")
}

// Between the rows of a list a signal holds its level: folded, it has one everywhere.
func TestFoldOfAList(t *testing.T) {
	e := idlingEngine()
	data, _ := e.list(analyser())
	r, err := measure(data, "60-2", columns(1))
	require.NoError(t, err)
	folded, err := r.Fold(bytes.NewReader(data))
	require.NoError(t, err)
	require.Len(t, folded, 2)
	require.Len(t, folded[0].Envelope, 1440) // of half a degree, two turns
	for i, span := range folded[0].Envelope {
		tooth := i % 720
		switch in := tooth % 12; {
		case in == 0 || in == 6 || in == 11 || in == 5: // an edge
		case tooth/12 < 58 && in < 6:
			require.InDelta(t, 1, span.Low, 1e-9, "%v", span)
		default:
			require.InDelta(t, 0, span.High, 1e-9, "%v", span)
		}
	}
}
