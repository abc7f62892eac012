package lobes

import (
	"errors"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
)

// Reach is how sure a lobe's readings will make it, half-widths at 95 %.
type Reach struct {
	Opens, Closes, Centre, Duration Bound
	Shift                           *Bound          // of its cam; nil without a card
	Missing                         geometry.Length // of lift; 0 without opening and closing on the card
}

// Bound is a half-width at 95 %, crank.
type Bound struct {
	Known   geometry.Angle // on the protractor as it is
	AgreeTo geometry.Angle // of what the readings leave, were the protractor without error of its own
}

// errNoEvents is a checking lift that no places to read tell the events of, as where it lies
// close under the top.
var errNoEvents = errors.New("no lifts about its checking lift would tell when it opens and closes: check lift, top and ratio in its [[lobe]]")

// foresee is a lobe as it is expected, read without error at a plan's points.
func (b bench) foresee(p Plan, e meant) (lobe.Measured, error) {
	from, err := b.from()
	if err != nil {
		return lobe.Measured{}, err
	}
	l := p.Lobe
	l.Gauge = b.lift(l.Gauge)
	l.Readings, l.Ratio, l.Lash = nil, 0, 0
	l.Card = lobe.Card{Lift: e.checking, HasEvents: true, Opens: e.timing.Opens, Closes: e.timing.Closes, Top: e.top}
	for _, point := range p.Points {
		l.Readings = append(l.Readings, lobe.Reading{Angle: from.TDC.Angle + point.after, Lift: point.Lift, Turn: evidence.Forward})
	}
	m := lobe.Measure(b.setup.Protractor, from, l)
	if m.Events == nil {
		return m, errNoEvents
	}
	return m, nil
}

// reach is what readings at a plan's points will reach.
func (b bench) reach(p Plan, e meant) (r Reach, err error) {
	known, err := b.foresee(p, e)
	if err != nil {
		return r, err
	}
	agree, err := b.without(protractorError).foresee(p, e)
	if err != nil {
		return r, err
	}
	bound := func(of func(lobe.Measured) lobe.Quantity) Bound {
		return Bound{of(known).Expanded, of(agree).Expanded}
	}
	r.Opens = bound(func(m lobe.Measured) lobe.Quantity { return m.Events.Opens })
	r.Closes = bound(func(m lobe.Measured) lobe.Quantity { return m.Events.Closes })
	r.Centre = bound(func(m lobe.Measured) lobe.Quantity { return m.Events.Centre })
	r.Duration = bound(func(m lobe.Measured) lobe.Quantity { return m.Events.Duration })
	switch {
	case p.Card.HasEvents:
		r.Shift = new(bound(func(m lobe.Measured) lobe.Quantity { return m.Shift.Quantity }))
		r.Missing = geometry.Length(2 * known.Shift.Offset.Uncertainty)
	case p.Card.HasCentre:
		r.Shift = &r.Centre
	}
	return r, nil
}

// ruling is what the lobe is read for: the shift of its cam, or its centre where no card
// says where that should be.
func (r Reach) ruling() Bound {
	if r.Shift != nil {
		return *r.Shift
	}
	return r.Centre
}
