package healthy

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
)

// Unlike is a lobe that is not in the mean of several engines'.
type Unlike struct {
	Name   string
	Engine int  // in the order given, from 0
	Shape  bool // it has another shape than the first engine's; else it could not be laid on it
}

// Combine is the lobes of several healthy engines of one family, in the order in which
// they first come, each the mean of all that have it, and those left out of a mean. Every
// engine's lobe is laid on the first one's: what is left of shift, missing lift and gauge's
// scale is shape, which one mean curve is made of; the shifts are averaged as marks are.
// A lobe that is not the same in all of them is an error.
func Combine(engines ...[]lobe.Measured) (kept []Kept, unlike []Unlike, err error) {
	var names []string
	same := map[string][]engine{}
	for n, lobes := range engines {
		for _, m := range lobes {
			c, ok := Of(m)
			if !ok || !tells(m) || slices.ContainsFunc(same[m.Name], func(e engine) bool { return e.n == n }) {
				continue // an engine's lobe that was read in several sets is as the first of them has it
			}
			if len(same[m.Name]) == 0 {
				names = append(names, m.Name)
			} else if problem := differs(m, same[m.Name][0].m); problem != "" {
				return nil, nil, fmt.Errorf("lobe %q: %s: give it another name", m.Name, problem)
			}
			same[m.Name] = append(same[m.Name], engine{n: n, m: m, c: c})
		}
	}
	for _, name := range names {
		k, left := together(same[name])
		kept, unlike = append(kept, k), append(unlike, left...)
	}
	return kept, unlike, nil
}

// tells tells whether a lobe may be kept: not one that looks like the other valve's, was read
// before the protractor moved, or has rows out of line.
func tells(m lobe.Measured) bool {
	switch m.NoEvidence.(type) {
	case nil, finding.OnRamp: // the whole of both flanks is kept
		return true
	}
	return false
}

// engine is one engine's lobe, and how it lies on the first one's.
type engine struct {
	n int
	m lobe.Measured
	c Curve
	l Laid
}

// differs says how two lobes of one name are not the same; empty where they are.
func differs(m, other lobe.Measured) string {
	if m.On != other.On || m.Valve != other.Valve {
		return fmt.Sprintf("it is an %s lobe on the %s here, and an %s lobe on the %s there", m.Valve, m.On, other.Valve, other.On)
	}
	return ""
}

// together is one lobe of several engines, of those whose shape is the first one's.
func together(of []engine) (k Kept, unlike []Unlike) {
	first := of[0]
	k = Kept{Name: first.m.Name, On: first.m.On, Valve: first.m.Valve, Limit: first.m.Limit, HasLimit: first.m.HasLimit, Curve: first.c}
	var alike []engine
	for _, e := range of {
		var ok bool
		e.l, ok = Lay(first.c, e.m)
		if e.n == first.n || ok && e.l.alike() {
			alike = append(alike, e)
			continue
		}
		unlike = append(unlike, Unlike{e.m.Name, e.n, ok})
	}
	if len(alike) > 1 && alike[0].l.readings > 0 {
		k.mean(alike)
	}
	return k, unlike
}

// seldom is how seldom chance makes a lobe of the same shape look like another's.
const seldom = 0.001

// alike tells whether a lobe that was laid on a curve has its shape.
func (l Laid) alike() bool {
	free := float64(l.readings - 2)                                                                                             // shift and missing lift; the scale is known beforehand
	return distuv.ChiSquared{K: free}.Survival(l.Misfit*free) > seldom && math.Abs(l.times.Value-1) <= 3.29*l.times.Uncertainty // as seldom
}

// mean makes the lobe that of all engines, each of which has been laid on the first one's.
func (k *Kept) mean(of []engine) {
	at, lost := k.place(of), make([]float64, len(of))
	for i, e := range of {
		lost[i] = e.l.Offset.Value
	}
	lift, differ := stat.MeanStdDev(lost, nil)
	n := float64(len(of))
	mean := Curve{
		Top: k.Top - geometry.Length(lift), Scale: k.Scale, Shared: at.OfTDC, Engines: at.Engines, Scatter: at.Scatter, Freedom: at.DegreesOfFreedom,
		Zero: geometry.Length(math.Hypot(float64(k.Zero)/math.Sqrt(n), differ*math.Sqrt(1+1/n))),
	}
	for _, opens := range []bool{true, false} {
		for _, e := range of {
			mean.take(e, opens, at.Angle, lift)
		}
	}
	k.Curve = mean
}

// place is where the engines have the lobe, after the first one's, and how they scatter.
func (k *Kept) place(of []engine) mark.Healthy {
	var each [][]mark.Healthy
	for _, e := range of {
		u := e.l.Seen.Spread().Standard()
		each = append(each, []mark.Healthy{{Name: k.Name, Angle: e.l.Shift.Angle, Uncertainty: geometry.Angle(u), OfTDC: min(e.c.Shared, geometry.Angle(u)),
			DegreesOfFreedom: math.Inf(1), Engines: 1, Limit: e.m.Limit, HasLimit: e.m.HasLimit}})
	}
	all, _ := mark.Combine(each...) // of one name, on one member: none differs
	k.Limit, k.HasLimit = all[0].Limit, all[0].HasLimit
	return all[0]
}

// take takes an engine's points of one flank into the mean curve, which is so much after
// the first engine's and has so much less lift, mm.
func (c *Curve) take(e engine, opens bool, after geometry.Angle, less float64) {
	for i, p := range e.c.Points {
		if p.Opens == opens {
			p.Angle += after - e.l.Shift.Angle
			p.Lift = geometry.Length((float64(p.Lift)+e.l.Offset.Value)/(1+e.l.scale) - less)
			c.Points, c.Doubts = append(c.Points, p), append(c.Doubts, e.c.Doubts[i])
		}
	}
}
