package lobes

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
	"evendrop/tdc/plan"
)

// bench is instruments with which the piston is read as planned, and then a lobe.
type bench struct {
	setup  evidence.Setup
	piston plan.Plan
	lift   func(lobe.Gauge) lobe.Gauge // what is known of the dial on the lobe
}

func newBench(setup evidence.Setup, piston plan.Plan) bench {
	return bench{setup, piston, func(g lobe.Gauge) lobe.Gauge { return g }}
}

// from is the TDC that the piston's readings will tell.
func (b bench) from() (from lobe.From, err error) {
	from.Result, err = tdc.Find(b.setup, evidence.Cylinder{Number: 1, Readings: b.piston.Readings(b.setup)})
	return from, err
}

// source is something that leaves a lobe's angles in doubt.
type source int

const (
	protractorError source = iota // its own along the scale
	protractor                    // that, and what it is read to
	heel                          // the cam's running out
	gauge                         // the lifts
)

// hardly is so little of an instrument's error that nothing comes of it, and enough for
// the adjustment's digits.
const hardly = 0.01

// without is the bench with hardly any of a source.
func (b bench) without(s source) bench {
	p, lift := &b.setup.Protractor, b.lift
	switch s {
	case protractor:
		p.Step *= hardly
		fallthrough
	case protractorError:
		p.Error *= hardly
	case heel:
		b.lift = func(g lobe.Gauge) lobe.Gauge { g = lift(g); g.RunOut *= hardly; return g }
	case gauge:
		b.lift = func(g lobe.Gauge) lobe.Gauge { g = lift(g); g.Step *= hardly; g.Error *= hardly; return g }
	}
	return b
}

// finer is the bench with a protractor that is read to so much, and good to it.
func (b bench) finer(to geometry.Angle) bench {
	p := &b.setup.Protractor
	p.Step, p.Error = min(p.Step, to), min(p.Error, to)
	return b
}

// measured is what a lobe's readings say so far. Without a TDC to count from they tell
// what was read, and not where: no event, and nothing that follows from one.
func (b bench) measured(l lobe.Lobe, known *lobe.From) (lobe.Measured, error) {
	if known != nil {
		return lobe.Measure(b.setup.Protractor, *known, l), nil
	}
	from, err := b.from()
	m := lobe.Measure(b.setup.Protractor, from, l)
	m.Events, m.Shift = nil, nil
	m.Findings = slices.DeleteFunc(m.Findings, func(f finding.Finding) bool {
		_, placed := f.(finding.OtherValve)
		return placed
	})
	return m, err
}
