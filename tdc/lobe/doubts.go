package lobe

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// rows is what speaks against the rows themselves.
func (d *laid) rows() (list []finding.Finding) {
	var first *Reading
	backward := 0
	for i, r := range d.lobe.Readings {
		if r.Turn == evidence.Backward {
			if backward++; first == nil {
				first = &d.lobe.Readings[i]
			}
		}
	}
	if first != nil {
		list = append(list, finding.BackwardRows{Mark: d.lobe.about(), Place: first.place(), Rows: backward})
	}
	if d.backward != nil {
		list = append(list, *d.backward)
	}
	if d.outOfLine != nil {
		list = append(list, *d.outOfLine)
	}
	return list
}

// heights is what the lifts say of the gauge's zero, and of the lobe that it stands on.
func (d *laid) heights() (list []finding.Finding) {
	if lift, off := d.heel(); off {
		list = append(list, finding.HeelNotZero{Mark: d.lobe.about(), Lift: lift})
	}
	if d.lobe.Card.Top == 0 {
		return list
	}
	meant := d.lobe.shown(d.lobe.Card.Top)
	allowed := math.Max(topShare*float64(meant), topLeast)
	if off := d.top - float64(meant); math.Abs(off) > allowed {
		list = append(list, finding.TopOff{Mark: d.lobe.about(), Top: geometry.Length(d.top), Meant: meant, Times: d.top / float64(meant)})
	}
	return list
}

// A lobe's top is worn, out of a card's by its rounding, or short by lash, by no more
// than these (common practice, no source).
const (
	topShare = 0.05
	topLeast = 0.3 // mm
)

// The heel is where the lift stays the same over so many degrees, low on the lobe.
const (
	heelAcross = 10 * geometry.Degree
	heelShare  = 0.1
)

// heel is what the gauge shows on the heel, where that is not zero: two readings some
// way apart at one low lift, or one below zero.
func (d *laid) heel() (lift geometry.Length, off bool) {
	doubt := math.Hypot(d.gauge(), float64(d.lobe.Gauge.RunOut)/2)
	sum, n := 0.0, 0
	for _, f := range []flank{d.opening, d.closing} {
		for k := 1; k < len(f.of); k++ {
			i, j := f.of[k-1], f.of[k]
			flat := d.angle[j]-d.angle[i] >= float64(heelAcross) && math.Abs(d.lift[j]-d.lift[i]) <= 3*d.gauge()
			if flat && math.Max(d.lift[i], d.lift[j]) < heelShare*d.top {
				sum, n = sum+d.lift[i]+d.lift[j], n+2
			}
		}
		for _, i := range f.of {
			if d.lift[i] < -3*doubt {
				sum, n = sum+d.lift[i], n+1
			}
		}
	}
	if n == 0 {
		return 0, false
	}
	mean := sum / float64(n)
	return geometry.Length(mean), math.Abs(mean) > 3*doubt
}

// wideBias is what a straight line between readings may be out by before it is spoken of.
const wideBias = 0.1 * geometry.Degree

// doubts is what speaks against the events, and what they say of the lobe.
func (m *Measured) doubts() (list []finding.Finding) {
	for _, of := range []struct {
		f flank
		c crossing
	}{{m.laid.opening, m.Events.opening}, {m.laid.closing, m.Events.closing}} {
		slope := geometry.Slope(math.Abs(of.c.slope))
		switch {
		case slope.MillimetresPerDegree() < leastSlope:
			m.NoEvidence = finding.OnRamp{Mark: m.about(), Flank: of.f.side, Slope: slope.MillimetresPerDegree(), Lift: m.Events.Lift}
			list = append(list, m.NoEvidence)
		case of.c.bias > float64(wideBias):
			list = append(list, finding.StraddledWide{Mark: m.about(), Flank: of.f.side, Lift: m.Events.Lift,
				Apart: geometry.Angle(m.laid.angle[of.c.above] - m.laid.angle[of.c.below])})
		}
	}
	if unlike, is := m.unlikeSlopes(); is && m.NoEvidence == nil {
		m.NoEvidence = unlike
		list = append(list, unlike)
	}
	if out := m.laid.outOfLine; out != nil && !out.LeftOut {
		m.NoEvidence = *out
	}
	if back := m.laid.backward; back != nil {
		m.NoEvidence = *back
	}
	if m.wrongSide() {
		m.NoEvidence = finding.OtherValve{Mark: m.about(), Valve: string(m.Valve), Centre: m.Events.Centre.Angle}
		list = append(list, m.NoEvidence)
	}
	if m.Lean != nil && m.Lean.Leans() {
		list = append(list, finding.LobeLeans{Mark: m.about(), Lambda: m.Lean.Lambda.Value, Uncertainty: m.Lean.Lambda.Uncertainty})
	}
	if s := m.Shift; s != nil && s.Offset != nil && math.Abs(s.Offset.Value) > Spoken*s.Offset.Uncertainty {
		list = append(list, finding.LiftOffset{Mark: m.about(), Offset: geometry.Length(s.Offset.Value), Expanded: geometry.Length(2 * s.Offset.Uncertainty)})
	}
	return list
}

// unlikeTimes is how many times as steep as the other one flank may be at one lift: unlike
// flanks of lobes that are made differ by less than a half (common practice, no source).
const unlikeTimes = 2

// unlikeSlopes is flanks so unlike where they pass the checking lift that one reading beside
// it was mistyped, though all lifts rise to the top and fall from it.
func (m *Measured) unlikeSlopes() (f finding.FlanksUnlike, is bool) {
	between := func(c crossing) (slope, doubt float64) {
		slope, doubt = m.laid.slopeBy([]int{c.below, c.above}, m.laid.straight(float64(m.Events.Lift)))
		return math.Abs(slope), doubt
	}
	steep, other := m.Events.opening, m.Events.closing
	f = finding.FlanksUnlike{Mark: m.about(), Flank: finding.OpeningFlank, Lift: m.Events.Lift}
	fast, doubt := between(steep)
	slow, doubtOther := between(other)
	if slow > fast {
		steep, other, fast, slow, f.Flank = other, steep, slow, fast, finding.ClosingFlank
	}
	f.Times = fast / slow
	f.Steep = [2]finding.Place{m.laid.read[steep.below].place(), m.laid.read[steep.above].place()}
	f.Other = [2]finding.Place{m.laid.read[other.below].place(), m.laid.read[other.above].place()}
	return f, f.Times > unlikeTimes*(1+Spoken*math.Hypot(doubt, doubtOther))
}

// wrongSide tells whether the lobe's centre lies where that of the other valve's does: an
// inlet lobe's comes after the TDC between the two, an exhaust lobe's before it.
func (m *Measured) wrongSide() bool {
	return (m.Events.Centre.Angle < 0) == (m.Valve == Inlet)
}
