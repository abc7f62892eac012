// Package timing turns the times of a capture's edges into crank angles: where the
// crank wheel's teeth and gaps are, and at which angles the cam edges come.
//
// Angles count in the running direction from the first leading edge after the crank
// wheel's gap. A capture says where cams stand against the crank wheel, never where
// either stands against the piston.
package timing

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/capture"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/teeth"
)

// Result is what a capture tells about an engine's wheels.
type Result struct {
	Wheel        wheel.Wheel
	CrankKind    signal.Kind
	CrankEdge    signal.Way // the leading edge of a tooth, as the signal shows it
	TurnsUsed    int
	TurnsLeftOut int
	// RPMMin and RPMMax are the least and greatest speed from tooth to tooth.
	RPMMin, RPMMax float64
	Period         geometry.Angle // 720 deg, or less when the cams do not tell turns, or equal parts of one, apart
	Step           geometry.Angle // crank angle from sample to sample, or of the last digit of a list's times, at the mean speed
	Changes        bool           // the capture is a list of changes, whose times are the edges
	Bounce         int            // changes left out as bounce
	Repeat         geometry.Angle // how well the crank's teeth repeat from turn to turn: median standard deviation; NaN when unknown
	Cams           []int          // the cams' columns, from 1, as they were asked for
	Edges          []Edge         // in the order of channel and angle
	PartsTold      bool           // one tooth is tooth 1: the wheel has no equal parts, or the cams tell them apart
	Rough          []teeth.Rough
	Notes          []finding.Finding

	survey capture.Survey
	placed []placed
}

// Measure turns a trace into angles. A crank edge of "" is found from the signal,
// and so are the places of the gaps of a wheel that tells none. An error says why the
// signal is not that wheel's, or no engine's.
func Measure(trace capture.Trace, told wheel.Wheel, crankEdge signal.Way) (Result, error) {
	t := signals{trace}
	w, err := t.place(told, crankEdge)
	if err != nil {
		return Result{}, err
	}
	edge, found, err := t.crank(w, crankEdge)
	if err != nil {
		return Result{}, err
	}
	if err := t.otherTurn(w, edge); err != nil {
		return Result{}, err
	}
	r := Result{Wheel: w, CrankKind: t.Channels[0].Kind, CrankEdge: edge, Changes: t.Changes, Bounce: t.Bounce, PartsTold: true, Notes: slices.Clone(t.Notes)}
	if w.Parts() > 1 {
		found, r.PartsTold = t.aligned(found, w, edge)
	}
	r.TurnsUsed, r.TurnsLeftOut = found.Used, found.LeftOut
	curves := r.crank(found)
	r.speeds(curves, t.Step)
	if r.RPMMax < slowest || r.RPMMin > fastest {
		return Result{}, fault.Errorf("by its times the engine turns at %s to %s rev/min", geometry.Decimal(r.RPMMin, 3), geometry.Decimal(r.RPMMax, 3)).Or(fault.TimeUnit).Or(fault.Rate)
	}
	r.cams(t, curves, found.Runs)
	r.addNotes(t, told)
	return r, nil
}

// cams places the cams' edges in the cycle.
func (r *Result) cams(t signals, curves []teeth.Curve, runs []teeth.Run) {
	part := geometry.Turn
	if !r.PartsTold {
		part = r.Wheel.Part()
	}
	p := phase(sightings(t.camEdges(), curves), runs, part)
	r.Period = p.period
	r.TurnsUsed -= p.unsure
	r.TurnsLeftOut += p.unsure
	r.survey, r.placed = t.Survey, placedOf(curves, p.begins)
	for i := range t.Request.Cams {
		r.Cams = append(r.Cams, t.Column(i+1)+1)
	}
	r.setEdges(p, t)
}

// crank judges the teeth, and makes the curve of each run without those that stand
// off.
func (r *Result) crank(found teeth.Turns) []teeth.Curve {
	judged := found
	if r.Wheel.Parts() > 1 && !r.PartsTold { // tooth 1 is another in each run
		longest := slices.MaxFunc(found.Runs, func(a, b teeth.Run) int { return a.Turns - b.Turns })
		judged.Runs = []teeth.Run{longest}
	}
	r.Rough, r.Repeat = teeth.FindRough(judged, r.Wheel), teeth.Repeat(judged, r.Wheel)
	rough := map[int]bool{}
	for _, tooth := range r.Rough {
		rough[tooth.Tooth] = true
	}
	var curves []teeth.Curve
	for _, run := range found.Runs {
		curves = append(curves, teeth.NewCurve(run, r.Wheel, rough))
	}
	return curves
}

// No engine turns slower or faster, rev/min (common practice, no source).
const slowest, fastest = 1, 50_000

// camEdges are the cams' edges to time: both of a square signal, the steep one of
// an inductive one.
func (t signals) camEdges() []camEdges {
	var out []camEdges
	for i, c := range t.Edges {
		if i == 0 {
			continue
		}
		steep := c.Steep()
		for _, way := range []signal.Way{signal.Rising, signal.Falling} {
			if t.Channels[i].Kind == signal.Square || way == steep {
				out = append(out, camEdges{i, way, c.Way(way)})
			}
		}
	}
	return out
}

// speeds finds the least and greatest speed, and the angle of a sample.
func (r *Result) speeds(curves []teeth.Curve, step float64) {
	r.RPMMin = math.Inf(1)
	time, angle := 0.0, geometry.Angle(0)
	for _, c := range curves {
		last := len(c.Times) - 1
		for from, to := 0, 0; to <= last; from++ {
			for to <= last && c.Angles[to]-c.Angles[from] < speedSpan-speedSpan/100 {
				to++
			}
			if to <= last {
				rpm := float64((c.Angles[to]-c.Angles[from])/geometry.Turn) / (c.Times[to] - c.Times[from]) * 60
				r.RPMMin, r.RPMMax = math.Min(r.RPMMin, rpm), math.Max(r.RPMMax, rpm)
			}
		}
		time += c.Times[last] - c.Times[0]
		angle += c.Angles[last] - c.Angles[0]
	}
	r.Step = angle / geometry.Angle(time) * geometry.Angle(step)
}

// speedSpan is the angle over which a speed is taken: short beside the ripple of
// an engine with many cylinders, long beside a sample.
const speedSpan = 12 * geometry.Degree

// leastPart and mostPart are how often, of the times that it should, an edge is to
// be seen; what comes more rarely or more often is a disturbance.
const leastPart, mostPart = 0.5, 1.5

// setEdges puts the groups into order, and leaves out disturbances.
func (r *Result) setEdges(p phased, t signals) {
	expected := float64(p.turns) * float64(geometry.Turn/p.period)
	stray := 0
	for _, g := range groups(p.all, p.period) {
		if n := float64(len(g.angles)); n < leastPart*expected || n > mostPart*expected {
			stray += len(g.angles)
			continue
		}
		mean := g.mean(p.period)
		r.Edges = append(r.Edges, Edge{
			Channel: t.Column(g.channel) + 1, Name: t.Name(g.channel), Kind: g.kind, Angle: mean,
			Teeth: r.Wheel.Tooth(mean), Deviation: g.deviation(), Count: len(g.angles),
		})
	}
	slices.SortStableFunc(r.Edges, func(a, b Edge) int {
		return cmp.Or(cmp.Compare(a.Channel, b.Channel), cmp.Compare(a.Angle, b.Angle))
	})
	if stray > 0 {
		r.note(finding.StrayPassings{Passings: stray})
	}
}
