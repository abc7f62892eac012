package tdc

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// order is how a cylinder's evidence follows on, against the turn stated.
type order struct {
	sweeps   []bool // over the top, in the order written: whether each goes the other way
	readings int    // as many of the sweeps are of readings, the rest pairs
	right    int    // steps of all legs
	wrong    int
	contrary []leg // with as many steps as speak of an order
	sided    bool  // of the legs that go the other way a reading was written with its side
}

// newOrder is the order of the readings and the pairs about TDC.
func newOrder(p evidence.Protractor, c evidence.Cylinder, tdc geometry.Angle) order {
	o := order{sided: p.Scale == evidence.Quadrants}
	for _, l := range legs(c.Readings, p.Still()) {
		if l.contrary() {
			o.wrong += l.steps
			o.sided = o.sided || slices.ContainsFunc(c.Readings[l.from:l.to+1], func(r evidence.Reading) bool { return r.Side != evidence.NoSide })
		} else {
			o.right += l.steps
		}
		if l.overTop(c.Readings, tdc) {
			o.sweeps = append(o.sweeps, l.contrary())
		}
		if l.contrary() && l.steps >= fewestContrary {
			o.contrary = append(o.contrary, l)
		}
	}
	o.readings = len(o.sweeps)
	for _, s := range c.Stops {
		o.pair(p, s.Rising, s.Falling, evidence.Forward)
	}
	for _, v := range c.Views {
		o.pair(p, v.Before, v.After, evidence.Forward)
	}
	for _, d := range c.Dwell {
		o.pair(p, d.Still, d.Moves, d.Turn)
	}
	return o
}

// pair adds two angles either side of TDC that the crank comes to one after the other.
func (o *order) pair(p evidence.Protractor, first, second geometry.Angle, turn evidence.TurnDirection) {
	if by := (second - first).Signed() * geometry.Angle(turn); by >= p.Still() || by <= -p.Still() {
		o.sweeps = append(o.sweeps, by < 0)
	}
}

// contradicts tells whether most of the evidence goes the other way than it says it
// was turned. Sweeps over the top tell it alone; of as many each way the first does,
// for a bench begins forward (common practice, no source). Without a sweep over the
// top the steps on the flanks tell it, and must be far more one way: readings sorted
// by depth go one way on one flank and the other on the other.
func (o order) contradicts() bool {
	wrong := 0
	for _, contrary := range o.sweeps {
		if contrary {
			wrong++
		}
	}
	if n := len(o.sweeps); n > 0 {
		return 2*wrong > n || 2*wrong == n && o.sweeps[0]
	}
	return o.wrong >= fewestContrary && o.wrong > 2*o.right
}

// contradicted is what the order of what was read contradicts.
func (o order) contradicted(p evidence.Protractor) finding.Finding {
	pairs := len(o.sweeps) > o.readings
	if o.sided {
		return finding.SidesContradicted{Pairs: pairs}
	}
	return finding.CountsContradicted{Counts: p.Sense, Pairs: pairs}
}

// follow says what the order of what was read makes of the result: that most of it
// goes against its turn comes before everything else.
func (r *Result) follow(o order) {
	if o.contradicts() && r.CannotTell == nil { // of what is no answer the order says nothing
		r.CannotTell = o.contradicted(r.setup.Protractor)
		r.sayFirst(r.CannotTell)
		return
	}
	for _, l := range o.contrary {
		r.Findings = append(r.Findings, finding.AgainstTurn{Place: finding.At(r.Readings[l.from].Reading), Steps: l.to - l.from})
	}
}

// sayFirst puts a finding before all others.
func (r *Result) sayFirst(f finding.Finding) { r.Findings = slices.Insert(r.Findings, 0, f) }
