package lobes

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/plan"
)

// Plan is where to read a lobe, turning forward only, and what that will reach.
type Plan struct {
	lobe.Lobe
	Points   []Point           // in the order that the crank comes to them; none where Findings say why
	Reach    Reach             // of readings at the points, the piston read as planned
	Findings []finding.Finding // what to know beforehand
	Lacking  []finding.Finding // what the lobe's readings so far lack; none where there are none
}

// Lifts that a plan can be made for: above a ramp's, and well below the top (common
// practice, no source).
const (
	lowLift   = 0.4 * geometry.Millimetre
	mostShare = 0.85
)

// Of is the plan of a lobe on a bench whose piston is read as planned. From is the TDC
// that its angles count from, where the piston has been read already; nil where not. An
// error is of an engine that cannot turn, of a piston whose planned readings do not tell
// TDC, or of planned lifts that tell no events.
func Of(setup evidence.Setup, piston plan.Plan, l lobe.Lobe, from *lobe.From) (Plan, error) {
	p := Plan{Lobe: l}
	b := newBench(setup, piston)
	m, err := b.measured(l, from)
	if err != nil {
		return p, err
	}
	e := expected(m)
	p.Findings, p.Lacking = e.assumed, lacking(m)
	of := finding.Mark{Name: l.Name}
	switch {
	case e.checking > mostShare*e.top:
		p.Findings = append(p.Findings, finding.LobeLiftHigh{Mark: of, Lift: e.checking, Top: e.top})
		return p, nil
	case e.checking < lowLift:
		p.Findings = append(p.Findings, finding.LobeLowLift{Mark: of, Lift: e.checking})
	}
	p.Points = points(e)
	tick(p.Points, m)
	if p.Reach, err = b.reach(p, e); err != nil {
		return p, err
	}
	limit, err := b.limit(p, e)
	p.Findings = append(p.Findings, limit)
	return p, err
}

// Needed is how many of the readings tell opening, closing and shift; the others show the
// lobe's shape.
func (p Plan) Needed() (n int) {
	for _, point := range p.Points {
		if point.Use != ForShape {
			n++
		}
	}
	return n
}

// Left is the numbers, from 1, of the points that are still to be read.
func (p Plan) Left() (list []int) {
	for i, point := range p.Points {
		if !point.Read {
			list = append(list, i+1)
		}
	}
	return list
}

// lacking is what is to be seen to about a lobe's readings before they tell its events;
// none of a lobe without readings.
func lacking(m lobe.Measured) (list []finding.Finding) {
	if len(m.Readings) == 0 {
		return nil
	}
	for _, f := range m.Findings {
		switch f.Cure() {
		case finding.ReadMore, finding.ReadAgain, finding.MendJob:
			list = append(list, f)
		}
	}
	return list
}
