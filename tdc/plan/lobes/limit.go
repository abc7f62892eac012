package lobes

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// fine is what a good digital protractor is read to, and good to (common practice, no
// source).
const fine = 0.1 * geometry.Degree

// limit is what leaves a lobe in doubt, and what would shrink it: a finer protractor, or
// this one moved on the crank.
func (b bench) limit(p Plan, e meant) (l finding.LobeLimit, err error) {
	l = finding.LobeLimit{Mark: finding.Mark{Name: p.Name}, Known: p.Reach.ruling().Known, RunOut: p.Gauge.RunOut, Slack: p.Slack, Fine: fine}
	rest := sq(float64(l.Known))
	for _, of := range []struct {
		source
		into *geometry.Angle
	}{{protractor, &l.Protractor}, {heel, &l.Heel}, {gauge, &l.Gauge}} {
		u, err := b.without(of.source).ruling(p, e)
		if err != nil {
			return l, err
		}
		part := math.Max(0, sq(float64(l.Known))-sq(float64(u)))
		*of.into = geometry.Angle(math.Sqrt(part))
		rest -= part
	}
	l.Rest = geometry.Angle(math.Sqrt(math.Max(0, rest)))
	// the gauge and the heel are the same in both settings
	l.Moved = geometry.Angle(math.Sqrt(sq(float64(l.Known)) - sq(float64(l.Protractor))/2))
	if step, own := b.setup.Protractor.Step, b.setup.Protractor.Error; step <= fine && own <= fine {
		return l, nil
	}
	finer, err := b.finer(fine).ruling(p, e)
	l.Finer = &finer
	return l, err
}

// ruling is Reach.Ruling of a bench.
func (b bench) ruling(p Plan, e meant) (geometry.Angle, error) {
	m, err := b.foresee(p, e)
	switch {
	case err != nil:
		return 0, err
	case p.Card.HasEvents:
		return m.Shift.Expanded, nil
	}
	return m.Events.Centre.Expanded, nil
}
