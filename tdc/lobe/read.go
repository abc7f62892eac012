package lobe

import (
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// CardTop is the card's greatest lift as the gauge shows it; 0 where the card says none.
func (l Lobe) CardTop() geometry.Length {
	if l.Card.Top == 0 {
		return 0
	}
	return l.shown(l.Card.Top)
}

// Straddled tells whether a flank was read below and above a lift, so near one another
// that the straight line between them tells where it passes.
func (m Measured) Straddled(side finding.LobeFlank, lift geometry.Length) bool {
	c, ok := m.laid.event(m.laid.on(side), lift)
	return ok && c.bias <= float64(wideBias)
}

// ReadAt tells whether a flank was read within so much of a lift; whether the top was, by
// a reading of it with both flanks about it.
func (m Measured) ReadAt(side finding.LobeFlank, lift, within geometry.Length) bool {
	d := &m.laid
	if len(d.lift) == 0 {
		return false
	}
	near := func(i int) bool { return math.Abs(d.lift[i]-float64(lift)) <= float64(within) }
	if side == finding.TopOfLobe {
		return d.highestOn() == side && d.top >= float64(lift-within)
	}
	return slices.ContainsFunc(d.on(side).of, near) || d.highestOn() == side && near(len(d.opening.of))
}

// TopRead tells whether the highest reading can be of the top: it stands within an eighth of
// the duration from the middle of the flanks, where a lobe has lost little of its lift. Else
// the top was not read, and is higher.
func (m Measured) TopRead() bool {
	if m.Events == nil {
		return false
	}
	const near = 8
	duration := m.Events.Duration.Angle
	highest := geometry.Angle(m.laid.angle[len(m.laid.opening.of)]) - m.zero()
	return math.Abs(float64(highest-m.Events.Opens.Angle-duration/2)) <= float64(duration)/near
}

// highestOn is where the highest reading was taken: on a flank, as far as anybody can say,
// while the other has none.
func (d *laid) highestOn() finding.LobeFlank {
	switch {
	case len(d.closing.of) == 0:
		return finding.OpeningFlank
	case len(d.opening.of) == 0:
		return finding.ClosingFlank
	}
	return finding.TopOfLobe
}

// on is the flank on a side.
func (d *laid) on(side finding.LobeFlank) flank {
	if side == finding.OpeningFlank {
		return d.opening
	}
	return d.closing
}
