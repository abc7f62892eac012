package healthy

import (
	"fmt"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/lobe"
)

// Kept is a lobe of healthy engines as a known-good file has it.
type Kept struct {
	Name, On string
	Valve    lobe.Valve
	Limit    geometry.Angle // allowed either way, crank
	HasLimit bool
	Curve
}

// Hold holds a lobe against the healthy one of its name in place of its card; one without
// such a one keeps its card, and so does one that cannot be laid on it. A lobe that is not
// the same in both is an error.
func Hold(m lobe.Measured, kept []Kept) (lobe.Measured, error) {
	for _, k := range kept {
		if k.Name != m.Name {
			continue
		}
		if problem := differs(m, lobe.Measured{Lobe: lobe.Lobe{On: k.On, Valve: k.Valve}}); problem != "" {
			return m, fmt.Errorf("%s: give it another name", problem)
		}
		if !m.HasLimit {
			m.Limit, m.HasLimit = k.Limit, k.HasLimit
		}
		if l, ok := Lay(k.Curve, m); ok {
			return l.holds(m, k.Curve), nil
		}
	}
	return m, nil
}

// holds is the lobe with what it shows beside the healthy engine's, in place of its card.
func (l Laid) holds(m lobe.Measured, c Curve) lobe.Measured {
	seen := l.Seen
	seen.Angle -= geometry.Turn * geometry.Angle(math.Round(float64((seen.Angle-m.Events.Centre.Angle)/geometry.Turn)))
	offset := l.Offset
	m.Shift = &lobe.Shift{Quantity: lobe.Quantity{Estimate: l.Shift, Seen: seen}, Nominal: seen.Angle - l.Shift.Angle, Offset: &offset, Healthy: true, OfHealthy: c.Shared, Engines: max(1, c.Engines), Among: c.among()}
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
