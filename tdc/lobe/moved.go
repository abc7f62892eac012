package lobe

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
)

// Shift is a lobe compared with its card: by how much its cam is late, and by how much
// its lift is off, each without the other.
type Shift struct {
	Quantity                // crank, late positive; Seen is where the lobe stands as a mark would
	Nominal  geometry.Angle // where Seen should be
	Offset   *gum.Measured  // mm of lift on the gauge that is missing; nil where the card has but a centre

	Healthy   bool           // compared with a healthy engine's lobe in place of a card
	OfHealthy geometry.Angle // standard uncertainty that its TDC and protractor leave all its lobes
	Engines   int            // healthy engines, of Healthy
	Among     gum.Component  // how several of them differ, radians
}

// compare holds the events against the card.
func (m *Measured) compare() {
	centre, told := m.Card.centre()
	if !told {
		return
	}
	e := m.Events
	if !m.Card.HasEvents {
		m.Shift = &Shift{Quantity: e.Centre, Nominal: centre}
		m.Shift.Angle = (e.Centre.Angle - centre).Signed()
		return
	}
	m.Shift = m.againstEvents(m.Card.timing())
}

// againstEvents is the shift by opening and closing: an offset of lift moves the two
// apart, each by its slope, and a cam that has moved moves them together (lobes.md 4).
func (m *Measured) againstEvents(card Timing) *Shift {
	e, d := m.Events, &m.laid
	opening, closing := float64(e.openingSlope), -float64(e.closingSlope)
	share := opening / (opening + closing)
	turns := geometry.Turn * geometry.Angle(math.Round(float64((e.Centre.Angle-card.Centre())/geometry.Turn)))
	late, lateClosing := e.Opens.Angle-card.Opens-turns, e.Closes.Angle-card.Closes-turns
	apart := float64(late - lateClosing)

	at := e.opening.plus(share, e.closing.sum, 1-share)
	at.stated = append(at.stated, share*(1-share)*math.Abs(apart)*math.Hypot(e.opening.slopeDoubt, e.closing.slopeDoubt))
	s := &Shift{Quantity: d.quantity(at, m.through, geometry.Angle(1-share)*e.later-e.turns)}
	s.Nominal = geometry.Angle(share)*card.Opens + geometry.Angle(1-share)*card.Closes
	s.Angle -= s.Nominal + turns
	together := 1 / (1/opening + 1/closing)
	between := d.quantity(e.opening.plus(1, e.closing.sum, -1), m.through, 0)
	s.Offset = &gum.Measured{Value: apart * together, Uncertainty: float64(between.Uncertainty) * together}
	return s
}
