package lobe

import (
	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// Mark is the lobe as a mark on its cam, off by its shift, or only measured without a
// card; false of one that says nothing of a moved cam.
func (m Measured) Mark() (mark.Mark, bool) {
	k := m.Lobe.Mark()
	if m.Events == nil || m.NoEvidence != nil {
		return k, false
	}
	k.Lobe.Seen = m.Events.Centre.Seen
	if s := m.Shift; s != nil {
		k.Unknown, k.ShouldBe = false, s.Nominal
		k.Lobe.Seen, k.Lobe.Healthy, k.Lobe.Doubt = s.Seen, s.Healthy, s.OfHealthy
		k.Lobe.Engines, k.Lobe.Among = s.Engines, s.Among
		if !s.Healthy {
			k.Lobe.Card = m.Card.angles()
		}
	}
	return k, true
}

// Mark is a lobe as a mark that has not been measured.
func (l Lobe) Mark() mark.Mark {
	return mark.Mark{Name: l.Name, On: l.On, Set: l.Set, After: l.After, Limit: l.Limit, HasLimit: l.HasLimit, Source: l.Source, Unknown: true, Lobe: &mark.Lobe{}}
}

// angles is what the card says.
func (c Card) angles() []geometry.Angle {
	switch {
	case c.HasEvents:
		return []geometry.Angle{c.Opens, c.Closes}
	case c.HasCentre:
		return []geometry.Angle{c.Centre}
	}
	return nil
}
