package timing_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
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

// engine is a simulated engine and the scope on it. It shares nothing with the
// package: its wheel is a list of edges in degrees, its clock the integral of a
// speed that ripples with the crank.
type engine struct {
	rpm, ripple float64 // mean of least and greatest speed; part
	perTurn     float64 // ripples a turn
	phase       float64 // of the ripple, deg
	rate        float64 // samples a second
	turns       float64
	teeth       []float64 // leading edges in a turn, deg; 0 the first after the gap
	width       float64   // of a tooth, deg
	inductive   bool
	reversed    bool
	cams        [][]float64 // edges in two turns, deg, the first rising
	start       float64     // crank angle at the first sample
	noise, hum  float64     // of the signal's height: standard deviation, amplitude
	drift       float64     // of the height, over the capture
	chipped     int         // this tooth leads late by chip; 0 none
	chip        float64
	clip        float64                     // coil signals past this part of the height are out of range; 0 none
	wander      func(angle float64) float64 // the first cam's height, instead of its edges
	seed        uint64
}

// wheelEdges are the leading edges of a wheel of equal pitches without those missing.
func wheelEdges(pitches int, missing ...int) []float64 {
	var edges []float64
	for i := range pitches {
		gone := false
		for _, m := range missing {
			gone = gone || m == i
		}
		if !gone {
			edges = append(edges, float64(i)*360/float64(pitches))
		}
	}
	return edges
}

func sixtyTwo() []float64 { return wheelEdges(60, 58, 59) }

// crankingEngine turns at 85 to 225 rev/min, twice a turn as four cylinders do.
func crankingEngine() engine {
	return engine{
		rpm: 155, ripple: 70.0 / 155, perTurn: 2, rate: 25e3, turns: 5.7, teeth: sixtyTwo(), width: 3, start: 100, seed: 1,
		cams: [][]float64{{30, 80, 120, 300, 411.7, 600}},
	}
}

// idlingEngine turns at 800 rev/min, 5 % ripple.
func idlingEngine() engine {
	e := crankingEngine()
	e.rpm, e.ripple, e.rate, e.turns = 800, 0.05, 80e3, 7.7
	return e
}

// speed is in degrees a second.
func (e engine) speed(angle float64) float64 {
	return e.rpm * 6 * (1 + e.ripple*math.Cos((e.perTurn*angle+e.phase)*math.Pi/180))
}

// samples calls each with time, crank signal and cam signals (5 V high, a coil 10
// V at the mean speed).
func (e engine) samples(each func(t, crank float64, cams []float64)) {
	random := rand.New(rand.NewPCG(e.seed, 2))
	angle, step := e.start, 1/e.rate
	cams := make([]float64, len(e.cams))
	crankShape := shape(360, e.hall)
	if e.inductive {
		crankShape = shape(360, e.coil)
	}
	var camShapes []func(float64) float64
	for _, edges := range e.cams {
		camShapes = append(camShapes, shape(720, func(a float64) float64 { return level(edges, a, 720) }))
	}
	total := e.turns * 60 / e.rpm
	for i := 0; angle < e.start+360*e.turns; i++ {
		t := float64(i) * step
		dirt := e.hum*math.Sin(2*math.Pi*50*t+1) + e.drift*(t/total-0.5)
		crank := 5 * (crankShape(angle) + dirt + e.noise*random.NormFloat64())
		if e.inductive {
			crank = 10 * (crankShape(angle)*e.speed(angle)/(e.rpm*6) + dirt + e.noise*random.NormFloat64())
		}
		for c, cam := range camShapes {
			if e.wander != nil {
				cam = e.wander
			}
			cams[c] = 5 * (cam(angle) + dirt + e.noise*random.NormFloat64())
		}
		each(t, crank, cams)
		middle := angle + e.speed(angle)*step/2
		angle += e.speed(middle) * step
	}
}

// shape is a signal's shape from a table of fiftieths of a degree.
func shape(period float64, of func(float64) float64) func(float64) float64 {
	table := make([]float64, int(period*50)+1)
	for i := range table {
		table[i] = of(math.Mod(float64(i)/50, period))
	}
	return func(angle float64) float64 {
		whole, part := math.Modf(math.Mod(angle, period) * 50)
		i := int(whole)
		return table[i] + part*(table[i+1]-table[i])
	}
}

// ramp is how far round an edge takes, deg: a Hall sensor's and the scope's rise.
const ramp = 0.2

// level is the height of a signal that is high from each even edge to the next odd.
func level(edges []float64, angle, period float64) float64 {
	for i := 0; i+1 < len(edges); i += 2 {
		up, down := math.Remainder(angle-edges[i], period), math.Remainder(angle-edges[i+1], period)
		switch {
		case math.Abs(up) < ramp/2:
			return up/ramp + 0.5
		case math.Abs(down) < ramp/2:
			return 0.5 - down/ramp
		case math.Mod(angle-edges[i]+2*period, period) < edges[i+1]-edges[i]:
			return 1
		}
	}
	return 0
}

func (e engine) lead(i int) float64 {
	if i == e.chipped && i > 0 {
		return e.teeth[i] + e.chip
	}
	return e.teeth[i]
}

// far is a quick way to tell that a tooth does not matter at an angle.
func far(a, tooth float64) bool { return math.Abs(a-tooth) > 30 && math.Abs(a-tooth) < 330 }

func (e engine) hall(angle float64) float64 {
	a := math.Mod(angle+7200, 360)
	h := 0.0
	for i := range e.teeth {
		if far(a, e.teeth[i]) {
			continue
		}
		if d := math.Remainder(a-e.lead(i), 360); d > -1 && d < e.width+1 {
			h = max(h, min(1, max(0, d/ramp+0.5), max(0, (e.teeth[i]+e.width-e.lead(i)-d)/ramp+0.5)))
		}
	}
	if e.reversed {
		return 1 - h
	}
	return h
}

// coil is minus the slope of a bell of flux over each tooth, 1 high.
func (e engine) coil(angle float64) float64 {
	a, v := math.Mod(angle+7200, 360), 0.0
	for i := range e.teeth {
		if far(a, e.teeth[i]) {
			continue
		}
		if d := math.Remainder(a-e.lead(i), 360) / (e.width / 2.5); math.Abs(d) < 6 {
			v -= d * math.Exp(0.5-d*d/2)
		}
	}
	if e.reversed {
		return -v
	}
	return v
}

// table is how the scope writes its file.
type table struct {
	header    string
	separator string
	comma     bool
	time      func(row int, t float64) string
	tail      string
	drop      func(row int) bool
}

func plainTable() table {
	return table{header: "Time,Crank,Inlet\n(s),(V),(V)\n\n", separator: ","}
}

// capture is the scope's file.
func (e engine) capture(f table) []byte {
	var b bytes.Buffer
	b.WriteString(f.header)
	row := 0
	cell := func(text string) {
		if f.comma {
			text = string(bytes.Replace([]byte(text), []byte("."), []byte(","), 1))
		}
		b.WriteString(text)
	}
	value := func(v float64) string {
		switch {
		case e.clip > 0 && v > 10*e.clip:
			return "∞"
		case e.clip > 0 && v < -10*e.clip:
			return "-∞"
		}
		return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
	}
	e.samples(func(t, crank float64, cams []float64) {
		row++
		if f.drop != nil && f.drop(row) {
			return
		}
		if f.time != nil {
			cell(f.time(row, t))
		} else {
			cell(strconv.FormatFloat(t-0.1, 'f', 7, 64))
		}
		b.WriteString(f.separator)
		cell(value(crank))
		for _, c := range cams {
			b.WriteString(f.separator)
			cell(value(c))
		}
		b.WriteByte('\n')
	})
	b.WriteString(f.tail)
	return b.Bytes()
}

// measure reads a capture of time, crank and cams in that order, of a wheel told as a
// user may.
func measure(data []byte, told string, q capture.Request) (timing.Result, error) {
	w, err := wheel.ParseTold(told)
	if err != nil {
		return timing.Result{}, err
	}
	s, err := capture.Look(bytes.NewReader(data), q)
	if err != nil {
		return timing.Result{}, err
	}
	trace, err := capture.Time(bytes.NewReader(data), s)
	if err != nil {
		return timing.Result{}, err
	}
	return timing.Measure(trace, w, "")
}

func columns(cams int) capture.Request {
	q := capture.Request{Time: "1", Crank: "2"}
	for i := range cams {
		q.Cams = append(q.Cams, strconv.Itoa(i+3))
	}
	return q
}

// requireEdges holds the edges found against those simulated, within tolerance in
// degrees; the phase of the cycle is the program's choice.
func requireEdges(t *testing.T, e engine, r timing.Result, tolerance float64) {
	t.Helper()
	worst := 0.0
	for c, edges := range e.cams {
		var got []timing.Edge
		for _, g := range r.Edges {
			if g.Channel == c+3 {
				got = append(got, g)
			}
		}
		require.Len(t, got, len(edges), "channel %d: %v", c+3, got)
		for i, want := range edges {
			kind := signal.Rising
			if i%2 == 1 {
				kind = signal.Falling
			}
			least := math.Inf(1)
			for _, g := range got {
				if g.Kind == kind {
					least = math.Min(least, math.Abs(math.Remainder(g.Angle.Degrees()-want, 360)))
				}
			}
			worst = math.Max(worst, least)
		}
	}
	t.Logf("worst edge %.4f deg, %d turns used, %d left out, %.0f to %.0f rev/min", worst, r.TurnsUsed, r.TurnsLeftOut, r.RPMMin, r.RPMMax)
	require.LessOrEqual(t, worst, tolerance, fmt.Sprint(r.Edges, r.Notes))
}

// requireTry holds a fault's suggestions against one.
func requireTry(t *testing.T, err error, want fault.Try) {
	t.Helper()
	f, ok := errors.AsType[*fault.Fault](err)
	require.True(t, ok, "%v", err)
	require.Contains(t, f.Try, want, f.Problem)
}

// noted is the one finding of its kind.
func noted[F finding.Finding](t *testing.T, notes []finding.Finding) (only F) {
	t.Helper()
	n := 0
	for _, note := range notes {
		if f, ok := note.(F); ok {
			only = f
			n++
		}
	}
	require.Equal(t, 1, n, "%T among %v", only, notes)
	return only
}
