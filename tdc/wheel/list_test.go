package wheel_test

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/wheel"
)

// logger is a logic analyser: a row only when a level changes.
type logger struct {
	channels int     // crank, and cams as the engine has; others beside them tick by themselves
	tick     float64 // s, to which times are rounded
	standing float64 // s, of levels that hold before the engine turns
	bounce   int     // pulses of a microsecond after every so-manyth edge; 0 none
	early    int     // pulses of a microsecond at the very start
	long     int     // this tooth of the crank reaches to the next, over a gap; 0 none
}

func analyser() logger { return logger{channels: 2, tick: 0.25e-6, standing: 0.7} }

// change is a channel's new level.
type change struct {
	t       float64
	channel int
	high    bool
}

// turnings are the levels of a channel by angle, one period of them.
type turnings struct {
	period float64
	edges  []float64 // rising and falling by turns
}

// crankTurnings are the leads and ends of the crank's teeth.
func (e engine) crankTurnings(l logger) turnings {
	out := turnings{period: 360}
	for i := range e.teeth {
		end := e.teeth[i] + e.width
		if i == l.long && i > 0 {
			end = e.teeth[i+1] - e.width
		}
		out.edges = append(out.edges, e.lead(i), end)
	}
	return out
}

// exactly is when each channel changes: the time at which the engine passes each
// edge, from its speed in steps of a degree by Simpson's rule.
func (e engine) exactly(l logger) []change {
	all := []turnings{e.crankTurnings(l)}
	for _, cam := range e.cams {
		all = append(all, turnings{720, cam})
	}
	var out []change
	const step = 1.0
	t := l.standing
	for k := range int(e.turns * 360 / step) {
		from := e.start + float64(k)*step
		for c, s := range all[:min(len(all), l.channels)] {
			for i, edge := range s.edges {
				into := math.Mod(edge-from+100*s.period, s.period)
				if into < step {
					out = append(out, change{t + e.takes(from, into), c, (i%2 == 0) != (e.reversed && c == 0)})
				}
			}
		}
		t += e.takes(from, step)
	}
	for i := range l.channels - len(all) {
		for at := 0.01; at < t; at += 0.037 {
			out = append(out, change{at, len(all) + i, int(at/0.037)%2 == 1})
		}
	}
	slices.SortStableFunc(out, func(a, b change) int { return cmp.Compare(a.t, b.t) })
	return out
}

// takes is the time of a small turn, s.
func (e engine) takes(from, turn float64) float64 {
	return turn / 6 * (1/e.speed(from) + 4/e.speed(from+turn/2) + 1/e.speed(from+turn))
}

// list is the logger's file, and how many changes in it are bounce.
func (e engine) list(l logger) (data []byte, bounces int) {
	var b bytes.Buffer
	b.WriteString("Time[s]")
	for i := range l.channels {
		fmt.Fprintf(&b, ", Channel %d", i)
	}
	b.WriteString("\n")
	level := make([]bool, l.channels)
	level[0] = e.reversed
	row := func(t float64) {
		b.WriteString(strconv.FormatFloat(math.Round(t/l.tick)*l.tick, 'f', 8, 64))
		for _, high := range level {
			b.WriteString(map[bool]string{true: ", 1", false: ", 0"}[high])
		}
		b.WriteString("\n")
	}
	row(0)
	flips := e.flips(l)
	for _, f := range flips {
		level[f.channel] = !level[f.channel]
		row(f.t)
		if f.bounce {
			bounces++
		}
	}
	return b.Bytes(), bounces
}

// flip is a change of a channel to its other level.
type flip struct {
	t       float64
	channel int
	bounce  bool
}

// flips are the changes with what bounces, in the order of time.
func (e engine) flips(l logger) []flip {
	var out []flip
	pulse := func(t float64, channel int) {
		out = append(out, flip{t + 1e-6, channel, true}, flip{t + 2e-6, channel, true})
	}
	for i := range l.early {
		pulse(0.001+float64(i)*3e-6, 0)
	}
	level := make([]bool, l.channels)
	level[0] = e.reversed
	for i, c := range e.exactly(l) {
		if level[c.channel] == c.high { // as the capture begins
			continue
		}
		level[c.channel] = c.high
		out = append(out, flip{c.t, c.channel, false})
		if l.bounce > 0 && i%l.bounce == 0 {
			pulse(c.t, c.channel)
		}
	}
	slices.SortStableFunc(out, func(a, b flip) int { return cmp.Compare(a.t, b.t) })
	return out
}

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
				require.Equal(t, map[bool]wheel.Way{false: wheel.Rising, true: wheel.Falling}[e.reversed], r.CrankEdge)
				require.Zero(t, r.TurnsLeftOut)
				require.Empty(t, r.Rough)
				require.Len(t, r.Notes, map[bool]int{true: 1}[bounces > 0], r.Notes)
				requireEdges(t, e, r, tolerance)
			})
		}
	}
}

// Samples are no list of changes, though they have two levels; nor is a list whose
// signal has three.
func TestSamplesAreNoList(t *testing.T) {
	e := idlingEngine()
	r, err := measure(e.capture(plainTable()), "60-2", columns(1))
	require.NoError(t, err)
	require.False(t, r.Changes)
	data, _ := e.list(analyser())
	data = bytes.Replace(data, []byte("Time[s], Channel 0, Channel 1\n"), []byte("Time[s], Channel 0, Channel 1\n-1, 0.5, 0\n"), 1)
	r, err = measure(data, "60-2", columns(1))
	if err == nil {
		require.False(t, r.Changes)
	}
}

// crankAlone is a capture of the crank, of any wheel.
func crankAlone(e engine, l logger) []byte {
	e.cams, l.channels = nil, 1
	data, _ := e.list(l)
	return data
}

// measureTold reads a capture of a wheel told as a user may.
func measureTold(data []byte, told string, cams int) (wheel.Result, error) {
	w, err := wheel.ParseTold(told)
	if err != nil {
		return wheel.Result{}, err
	}
	s, err := wheel.Look(bytes.NewReader(data), columns(cams))
	if err != nil {
		return wheel.Result{}, err
	}
	trace, err := wheel.Time(bytes.NewReader(data), s)
	if err != nil {
		return wheel.Result{}, err
	}
	return wheel.Measure(trace, w, "")
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
			require.Equal(t, told == "", strings.Contains(strings.Join(r.Notes, " "), "No --wheel was told: 60-2"))
		}
	}
}

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
				require.Equal(t, map[bool]wheel.Way{false: wheel.Rising, true: wheel.Falling}[c.reversed], r.CrankEdge)
				require.GreaterOrEqual(t, r.TurnsUsed, 7)
				require.Zero(t, r.TurnsLeftOut)
				require.True(t, r.PartsTold)
				require.Less(t, r.Repeat.Degrees(), 0.01)
			}
			for _, wrong := range []string{"36-2", "60-2", "36-2-2-2", "36-1-3", "18x10,30,12x10,30"} {
				_, err := measureTold(crankAlone(e, l), wrong, 0)
				require.ErrorContains(t, err, "--wheel "+c.list, wrong)
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
			require.ErrorContains(t, err, "type --wheel "+thirdsList, wrong)
			require.NotContains(t, err.Error(), "type --wheel 12-2")
		}
		alone := crankAlone(e, analyser())
		for _, untold := range []string{"", "36-2", "60-2"} {
			_, err := measureTold(alone, untold, 0)
			require.ErrorContains(t, err, "alone does not tell how often in a turn", untold)
			require.ErrorContains(t, err, "--wheel "+thirdsList)
		}
		r, err := measureTold(alone, "36-2-2-2", 0)
		require.NoError(t, err)
		require.False(t, r.PartsTold)
		require.Contains(t, strings.Join(r.Notes, " "), "3 equal parts, which look alike, and nothing here tells which is which")
		r, err = measureTold(alone, "12-2", 0)
		require.NoError(t, err)
		require.Contains(t, strings.Join(r.Notes, " "), "does not tell 12-2 from 36-2-2-2 in three equal parts")
	}
}

// requireEdgesByThirds holds the edges against those simulated, from whichever third
// they count: the same for all.
func requireEdgesByThirds(t *testing.T, e engine, r wheel.Result) {
	t.Helper()
	best := math.Inf(1)
	for third := range 6 {
		worst := 0.0
		for i, want := range e.cams[0] {
			least := math.Inf(1)
			for _, g := range r.Edges {
				if (g.Kind == wheel.Rising) == (i%2 == 0) {
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
	var first wheel.Result
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
		c, err := wheel.Compare(first, r)
		require.NoError(t, err)
		require.Contains(t, c.Finding, "No cam edge moved")
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
	require.Equal(t, 1_000_000/116-1, r.TurnsUsed)                                                   // high in the first row: no edge, and so no first turn
	require.Contains(t, strings.Join(r.Notes, " "), "Only the first 517 s of the capture were used") // so many edges at 1000 rev/min
}

// A capture whose signal comes back every so-manyth sample is looked at elsewhere
// too: its crank is high for one sample in eight, at the same one each time.
func TestSignalInStepWithSamples(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("s,V,V\n")
	for i := range 300_000 {
		crank := 4.91
		if a := i % 480; a < 464 && a%8 == 3 {
			crank = 0.02
		}
		fmt.Fprintf(&b, "%.5f,%g,%d\n", float64(i)*1e-4, crank, i/48%3)
	}
	_, err := measure(b.Bytes(), "60-2", columns(1))
	if err != nil {
		require.NotContains(t, err.Error(), "stays at")
	}
}

// Columns may be headed with a digit: they are headings still.
func TestHeadingsWithDigits(t *testing.T) {
	_, err := measure([]byte("Time[s], Channel 0, Channel 1\n0,1,1\n1,0,1\n2,1,0\n3,0,0\n"), "60-2", wheel.Request{Time: "1", Crank: "nix"})
	require.ErrorContains(t, err, `line 1: no column is headed "nix": expected one of Time[s], Channel 0, Channel 1`)
}
