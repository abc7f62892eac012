package marktest

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// Seven is the marks that a workshop measures: locking pin, pulley notch, gap of
// the crank wheel at its sensor, cam locks, and the cams' edges from that gap.
func Seven(certain bool) []mark.Mark {
	d := geometry.Degree
	return []mark.Mark{
		{Name: "P", On: "flywheel", Limit: 1 * d, HasLimit: true},
		{Name: "N", On: "pulley", Limit: 2 * d, HasLimit: true},
		{Name: "G", On: "crank wheel", Limit: 1 * d, HasLimit: true, Certain: certain},
		{Name: "CI", On: "inlet cam", Limit: 2 * d, HasLimit: true, Certain: certain},
		{Name: "CE", On: "exhaust cam", Limit: 2 * d, HasLimit: true, Certain: certain},
		{Name: "WI", On: "inlet wheel", Against: "crank wheel", Off: &mark.Shift{}, Limit: 2 * d, HasLimit: true, Certain: certain},
		{Name: "WE", On: "exhaust wheel", Against: "crank wheel", Off: &mark.Shift{}, Limit: 2 * d, HasLimit: true, Certain: certain},
	}
}

// Fault is what each of the seven shows, per unit of one thing moved, and the
// joints that it may be: worked out on paper from what turns with what.
type Fault struct {
	Joints []string
	Shows  []float64
}

// Faults is those that move no more than one thing, of TwoCams.
var Faults = []Fault{
	{[]string{"flywheel on crank"}, []float64{1, 0, 1, 0, 0, -1, -1}},
	{[]string{"crank wheel on flywheel", "crank sensor"}, []float64{0, 0, 1, 0, 0, -1, -1}},
	{[]string{"pulley on crank", "N itself"}, []float64{0, 1, 0, 0, 0, 0, 0}},
	{[]string{"crank sprocket on crank", "drive on crank sprocket"}, []float64{0, 0, 0, 1, 1, 1, 1}},
	{[]string{"drive to exhaust sprocket", "exhaust cam on exhaust sprocket"}, []float64{0, 0, 0, 0, 1, 0, 1}},
	{[]string{"drive to inlet sprocket", "inlet cam on inlet sprocket"}, []float64{0, 0, 0, 1, 0, 1, 0}},
	{[]string{"inlet wheel on inlet cam", "inlet cam sensor", "WI itself"}, []float64{0, 0, 0, 0, 0, 1, 0}},
	{[]string{"exhaust wheel on exhaust cam", "exhaust cam sensor", "WE itself"}, []float64{0, 0, 0, 0, 0, 0, 1}},
	{[]string{"P itself"}, []float64{1, 0, 0, 0, 0, 0, 0}},
	{[]string{"TDC of cylinder 1"}, []float64{1, 1, 1, 1, 1, 0, 0}},
}

// Off is a mark off by degrees, of own variance v, degrees squared, beside
// what all share.
func Off(on string, off, own, shared float64) mark.Judged {
	u := math.Sqrt(own + shared*shared)
	f := mark.Judged{Mark: mark.Mark{Name: on, On: on, Certain: true}, Period: geometry.Turn, Shared: []float64{shared * float64(geometry.Degree)}}
	f.Estimate = gum.Spread{Normal: []gum.Component{{Standard: u * float64(geometry.Degree), Degrees: math.Inf(1)}}}.Estimate(geometry.Angle(off) * geometry.Degree)
	return f
}

// Limited is a mark off by degrees that shares nothing, with a limit.
func Limited(on string, off, own, limit float64) mark.Judged {
	f := Off(on, off, own, 0)
	f.Limit, f.HasLimit = geometry.Angle(limit)*geometry.Degree, true
	return f
}

// Edge is an edge of a wheel, seen by a capture to a standard uncertainty of 0.1 deg.
func Edge(name, on string, off, limit float64) mark.Judged {
	f := mark.Judged{Mark: mark.Mark{Name: name, On: on, Against: "crank wheel", Off: &mark.Shift{}}, Period: 2 * geometry.Turn}
	if limit > 0 {
		f.Limit, f.HasLimit = geometry.Angle(limit)*geometry.Degree, true
	}
	f.Estimate = gum.Spread{Normal: []gum.Component{{Standard: 0.1 * float64(geometry.Degree), Degrees: math.Inf(1)}}}.Estimate(geometry.Angle(off) * geometry.Degree)
	return f
}
