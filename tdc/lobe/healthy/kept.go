package healthy

import (
	"fmt"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// Kept is a healthy engine's lobe as a known-good file has it.
type Kept struct {
	Name, On string
	Valve    lobe.Valve
	Limit    geometry.Angle // allowed either way, crank
	HasLimit bool
	Curve
}

// Keep is the lobes of a healthy engine that have a curve to keep.
func Keep(lobes []lobe.Measured) (list []Kept) {
	for _, m := range lobes {
		if c, ok := Of(m); ok {
			list = append(list, Kept{m.Name, m.On, m.Valve, m.Limit, m.HasLimit, c})
		}
	}
	return list
}

// Hold holds a lobe against the healthy one of its name in place of its card; one without
// such a one keeps its card, and so does one that cannot be laid on it. A lobe that is not
// the same in both is an error.
func Hold(m lobe.Measured, kept []Kept) (lobe.Measured, error) {
	for _, k := range kept {
		if k.Name != m.Name {
			continue
		}
		if k.On != m.On || k.Valve != m.Valve {
			return m, fmt.Errorf("it is an %s lobe on the %s here, and an %s lobe on the %s there: give it another name", m.Valve, m.On, k.Valve, k.On)
		}
		if !m.HasLimit {
			m.Limit, m.HasLimit = k.Limit, k.HasLimit
		}
		if l, ok := Lay(k.Curve, m); ok {
			return l.holds(m, k.Shared), nil
		}
	}
	return m, nil
}

// holds is the lobe with what it shows beside the healthy engine's, in place of its card.
func (l Laid) holds(m lobe.Measured, shared geometry.Angle) lobe.Measured {
	seen := l.Seen
	seen.Angle -= geometry.Turn * geometry.Angle(math.Round(float64((seen.Angle-m.Events.Centre.Angle)/geometry.Turn)))
	offset := l.Offset
	m.Shift = &lobe.Shift{Quantity: lobe.Quantity{Estimate: l.Shift, Seen: seen}, Nominal: seen.Angle - l.Shift.Angle, Offset: &offset, Healthy: true, OfHealthy: shared}
	m.Findings = slices.DeleteFunc(slices.Clone(m.Findings), ofCard)
	m.Findings = append(m.Findings, l.Findings(m.Name)...)
	if _, ramp := m.NoEvidence.(finding.OnRamp); ramp {
		m.NoEvidence = nil // the whole of both flanks speaks
	}
	return m
}

// ofCard tells whether a finding is of the card, or of its checking lift alone.
func ofCard(f finding.Finding) bool {
	switch f.(type) {
	case finding.LiftOffset, finding.OnRamp, finding.StraddledWide, finding.TopOff:
		return true
	}
	return false
}
