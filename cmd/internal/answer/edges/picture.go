package edges

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/chart"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/wheel/timing"
)

// laneFill is the part of its lane that a signal takes, the lanes lying one below
// another, one to each signal.
const laneFill = 0.7

// picture is the traces folded over crank angle as SVG, the crank's first.
func (e Edges) picture(traces []timing.Folded) ([]byte, error) {
	r := e.result
	step := numberedStep(r)
	c := chart.Chart{
		Title: "Sensor signals over crank angle",
		Description: fmt.Sprintf("%d turns of %s laid over 0 to %.0f crank degrees after the gap, the crank signal on top, %s. "+
			"Each signal is scaled to its own swing and drawn from its least to its greatest at each place. What differs from turn to turn is broad. "+
			"%d edges are marked.", r.TurnsUsed, r.Wheel.Name, r.Period.Degrees(), numberedHow(step), len(r.Edges)),
		X:    chart.Axis{Label: "crank degrees after the gap", To: r.Period.Degrees(), Angle: true},
		Wide: true,
		Y:    chart.Axis{Label: "each signal scaled to its own swing", To: float64(len(traces)) + 0.3, Bare: true},
	}
	for i, f := range traces {
		c.Series = append(c.Series, trace(f, len(traces)-1-i))
	}
	c.Series = append(c.Series, numberedTeeth(r, step, float64(len(traces))))
	if len(r.Edges) > 0 {
		c.Series = append(c.Series, foundEdges(r, traces))
	}
	return c.SVG()
}

// trace is a signal in its lane, counted from below.
func trace(f timing.Folded, lane int) chart.Series {
	s := chart.Series{Name: fmt.Sprintf("column %d %.20s", f.Column, f.Name), Line: true, Fine: true}
	at := func(v float64) float64 { return float64(lane) + laneFill*(v-f.Least)/(f.Most-f.Least) }
	last := 0.0
	for _, span := range f.Envelope {
		first, second := at(span.Low), at(span.High)
		if math.Abs(second-last) < math.Abs(first-last) { // from the nearer end on
			first, second = second, first
		}
		s.Points = append(s.Points, chart.Point{X: span.Angle.Degrees(), Y: first})
		if first != second {
			s.Points = append(s.Points, chart.Point{X: span.Angle.Degrees(), Y: second})
		}
		last = second
	}
	return s
}

// mostNumbers is how many numbers of teeth find room side by side.
const mostNumbers = 30

// numberedStep is the least step of 1, 2, 5 and zeros in which teeth are
// numbered for the numbers to find room.
func numberedStep(r timing.Result) int {
	for ten := 1; ; ten *= 10 {
		for _, step := range []int{ten, 2 * ten, 5 * ten} {
			if geometry.Angle(step)*r.Wheel.Pitch() >= r.Period/mostNumbers || step >= r.Wheel.Teeth() {
				return step
			}
		}
	}
}

func numberedHow(step int) string {
	if step == 1 {
		return "its teeth numbered"
	}
	return fmt.Sprintf("its first tooth and every %dth numbered", step)
}

// numberedTeeth are the numbers of the teeth at their leading edges, from 1.
func numberedTeeth(r timing.Result, step int, height float64) chart.Series {
	s := chart.Series{Name: "teeth"}
	for turn := geometry.Angle(0); turn < r.Period-geometry.Degree; turn += geometry.Turn {
		for n := 1; n <= r.Wheel.Teeth(); n++ {
			if n == 1 || n%step == 0 {
				x := (turn + r.Wheel.Angle(float64(n-1))).Degrees()
				s.Points = append(s.Points, chart.Point{X: x, Y: height, Label: fmt.Sprint(n)})
			}
		}
	}
	return s
}

// foundEdges are the edges of the cams, half-way up their signals, with their
// angle where the next of the same cam leaves room for it.
func foundEdges(r timing.Result, traces []timing.Folded) chart.Series {
	s := chart.Series{Name: "edges found"}
	for i, e := range r.Edges {
		for n, f := range traces {
			if f.Column != e.Channel {
				continue
			}
			p := chart.Point{X: e.Angle.Degrees(), Y: float64(len(traces)-1-n) + laneFill/2}
			if i+1 == len(r.Edges) || r.Edges[i+1].Channel != e.Channel || r.Edges[i+1].Angle-e.Angle > r.Period/mostNumbers*1.5 {
				p.Label = words.Fixed(e.Angle.Degrees(), 0) // the table has the rest
			}
			s.Points = append(s.Points, p)
		}
	}
	return s
}
