package lobe

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// Measured is what a lobe's readings say.
type Measured struct {
	Lobe
	Top        geometry.Length // the greatest lift read
	Events     *Events         // at the checking lift; nil where CannotTell
	Shift      *Shift          // compared with the card; nil without one, or without events
	Levels     []Level         // midpoints, by lift
	Lean       *Lean           // nil where there are too few levels
	Which      TDCKind         // of the piston's readings
	CannotTell finding.Finding // why there are no events; nil when there are
	NoEvidence finding.Finding // why the events say nothing of a moved cam; nil when they do
	Findings   []finding.Finding

	laid    laid
	through reckoning
}

// Events is what a lobe does at its checking lift, crank after TDC.
type Events struct {
	Lift                       geometry.Length // on the gauge
	Opens, Closes, Centre      Quantity
	Duration                   Quantity
	openingSlope, closingSlope geometry.Slope // as the crank turns, positive and negative

	opening, closing crossing
	later            geometry.Angle // added to the closing for slack
	turns            geometry.Angle // whole turns taken off what was read
}

// Timing is the opening and the closing.
func (e Events) Timing() Timing { return Timing{e.Opens.Angle, e.Closes.Angle} }

// From is the TDC that a lobe's angles count from.
type From struct {
	tdc.Result
	Throw geometry.Angle // of the lobe's cylinder after the result's, crank; 0 where it is its own
}

// Measure is what a lobe's readings say on the protractor that TDC was found on.
func Measure(p evidence.Protractor, from From, l Lobe) Measured {
	m := Measured{Lobe: l, through: from.through()}
	m.laid, m.CannotTell = layOut(p, l)
	m.Findings = m.laid.rows()
	if m.CannotTell != nil {
		m.Findings = append([]finding.Finding{m.CannotTell}, m.Findings...)
		return m
	}
	m.Top = geometry.Length(m.laid.top)
	m.Findings = append(m.Findings, m.laid.heights()...)
	m.events()
	m.levels()
	if m.Events == nil {
		m.Findings = append([]finding.Finding{m.CannotTell}, m.Findings...)
		return m
	}
	m.Which = m.which(p, from)
	m.compare()
	m.Findings = append(m.Findings, m.doubts()...)
	return m
}

// through is Through with angles that count from the cylinder's own TDC.
func (f From) through() reckoning {
	return func(places []position.Graduation, own gum.Component, ranges ...float64) position.Seen {
		s, whole := f.Through(places, own, ranges...), 0.0
		for _, p := range places {
			whole += p.Weight
		}
		s.Angle -= geometry.Angle(whole) * f.Throw
		return s
	}
}

// events is what the lobe does at the checking lift.
func (m *Measured) events() {
	d, lift := &m.laid, m.Checking()
	opening, read := d.event(d.opening, lift)
	if !read {
		m.CannotTell = d.notStraddled(d.opening, lift)
		return
	}
	closing, read := d.event(d.closing, lift)
	if !read {
		m.CannotTell = d.notStraddled(d.closing, lift)
		return
	}
	e := &Events{Lift: lift, opening: opening, closing: closing, later: m.Slack / 2}
	closing.stated = append(closing.stated, float64(m.Slack)/math.Sqrt(12))
	e.closing = closing
	e.openingSlope, e.closingSlope = geometry.Slope(opening.slope), geometry.Slope(closing.slope)
	e.Opens = d.quantity(opening.sum, m.through, 0)
	e.Closes = d.quantity(closing.sum, m.through, e.later)
	e.Centre = d.quantity(opening.plus(0.5, closing.sum, 0.5), m.through, e.later/2)
	e.Duration = d.quantity(opening.plus(-1, closing.sum, 1), m.through, e.later)
	e.turns = e.Centre.Angle - e.Centre.Angle.Signed()
	for _, q := range []*Quantity{&e.Opens, &e.Closes, &e.Centre} {
		q.move(-e.turns)
	}
	m.Events = e
}

// move is a quantity that angle later.
func (q *Quantity) move(by geometry.Angle) {
	q.Angle += by
	q.Seen.Angle += by
}

// event is where a flank passes the checking lift, by two readings that straddle it; one
// that lies on it to a hundredth of a lift's doubt straddles it too.
func (d *laid) event(f flank, lift geometry.Length) (crossing, bool) {
	c, ok := d.cross(f, float64(lift), 0.01)
	if !ok || d.angle[c.above]-d.angle[c.below] > float64(widest) {
		return c, false
	}
	c.scale = c.zero * float64(lift)
	c.stated = append(c.stated, c.bias/math.Sqrt(3))
	return c, true
}

// widest is how far apart two readings may lie and still straddle a lift.
const widest = 20 * geometry.Degree

// notStraddled is a lift that a flank was not read across.
func (d *laid) notStraddled(f flank, lift geometry.Length) finding.Finding {
	n := finding.LiftNotStraddled{Mark: d.lobe.about(), Flank: f.side, Lift: lift, Readings: len(f.of)}
	for _, i := range f.of {
		if l := d.read[i].Lift; l <= lift && (n.Below == nil || l > *n.Below) {
			n.Below = &l
		}
		if l := d.read[i].Lift; l >= lift && (n.Above == nil || l < *n.Above) {
			n.Above = &l
		}
	}
	return n
}

// TDCKind is which of a cycle's two TDCs one is.
type TDCKind string

// The kinds. A protractor that does not count both turns of a cycle shows them alike.
const (
	Firing     TDCKind = "firing"
	OverlapTDC TDCKind = "overlap"
	NotTold    TDCKind = ""
)

// which is whether the piston's readings were taken about the TDC that the lobe's events
// count from, where the protractor counts both turns.
func (m *Measured) which(p evidence.Protractor, from From) TDCKind {
	if p.Scale != evidence.Cycle || len(from.Readings) == 0 || from.Throw != 0 {
		return NotTold
	}
	overlap := m.zero()
	nearest := geometry.Angle(math.Inf(1))
	for _, r := range from.Readings {
		off := cycles(r.Angle - overlap)
		if math.Abs(float64(off)) < math.Abs(float64(nearest)) {
			nearest = off
		}
	}
	if math.Abs(float64(nearest)) < float64(geometry.Turn/4) {
		return OverlapTDC
	}
	return Firing
}

// cycles is an angle less whole cycles of two turns, within half of one either way.
func cycles(a geometry.Angle) geometry.Angle { return (a / 2).Signed() * 2 }
