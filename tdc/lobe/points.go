package lobe

import (
	"math"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust/position"
)

// Point is a reading on one of a lobe's flanks.
type Point struct {
	Angle geometry.Angle // crank after TDC
	Lift  geometry.Length
	Opens bool // on the opening flank
}

// Points is the readings on both flanks, the opening one first, each by angle; none of a
// lobe without events, which nothing places.
func (m Measured) Points() (list []Point) {
	for _, i := range m.onFlanks() {
		list = append(list, Point{m.laid.read[i].Angle - m.zero(), m.laid.read[i].Lift, i < m.laid.closing.of[0]})
	}
	return list
}

// onFlanks is the readings of Points.
func (m Measured) onFlanks() []int {
	if m.Events == nil {
		return nil
	}
	return append(m.laid.opening.of[:len(m.laid.opening.of):len(m.laid.opening.of)], m.laid.closing.of...)
}

// zero is where on the protractor, turns counted, the TDC lies that the events count from.
func (m Measured) zero() geometry.Angle {
	return geometry.Angle(m.Events.opening.of(m.laid.angle)) - m.Events.Opens.Angle
}

// Position is a position by so much of each of Points, and of what their rounding and
// lifts leave it.
func (m Measured) Position(weights []float64, own gum.Component) position.Seen {
	s := m.laid.newSum()
	for k, i := range m.onFlanks() {
		s.angle[i] = weights[k]
	}
	return m.through(s.places(&m.laid), own)
}

// Doubt is the variance of a point's angle by its rounding and its lift, radians squared,
// on a flank that takes so many radians for a millimetre.
func (m Measured) Doubt(each float64) float64 {
	return sq(float64(m.laid.step))/12 + sq(each)*(sq(m.laid.gauge())+sq(float64(m.Gauge.RunOut))/4)
}

// Line is the variance of the protractor's error at one line, radians squared, which
// Position has in it.
func (m Measured) Line() float64 { return m.laid.line }

// Shared is the standard uncertainty that TDC and the protractor leave the lobe's centre,
// radians.
func (m Measured) Shared() float64 {
	return math.Sqrt(math.Max(0, m.Events.Centre.Seen.Covariance(m.Events.Centre.Seen)))
}
