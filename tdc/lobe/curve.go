package lobe

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
)

// Placed is every reading that counts, by angle, the highest with those of the opening
// flank; none of a lobe without events, which nothing places.
func (m Measured) Placed() (list []Point) {
	if m.Events == nil {
		return nil
	}
	for i, r := range m.laid.read {
		list = append(list, Point{r.Angle - m.zero(), r.Lift, i < m.laid.closing.of[0]})
	}
	return list
}

// Curve is the lobe from reading to reading, in pieces of at most an angle: straight in
// the measure in which events and levels are read, asin sqrt(lift/top). None of a lobe
// without events.
func (m Measured) Curve(most geometry.Angle) (list []Point) {
	placed := m.Placed()
	for k := 1; k < len(placed); k++ {
		from, to := placed[k-1], placed[k]
		pieces := math.Ceil(float64((to.Angle - from.Angle) / most))
		for n := 0.0; n < pieces; n++ {
			list = append(list, m.between(from, to, n/pieces))
		}
	}
	if n := len(placed); n > 0 {
		list = append(list, m.between(placed[n-1], placed[n-1], 0))
	}
	return list
}

// between is a share of the way from one point to another along the curve.
func (m Measured) between(from, to Point, share float64) Point {
	z := (1-share)*m.laid.straight(float64(from.Lift)) + share*m.laid.straight(float64(to.Lift))
	return Point{
		Angle: from.Angle + geometry.Angle(share)*(to.Angle-from.Angle),
		Lift:  m.Top * geometry.Length(sq(math.Sin(z))),
		Opens: from.Opens,
	}
}

// Leaning is where the line of the midpoints has them, from the lowest of its levels to
// the nose, in so many pieces between two; none without a lean.
func (m Measured) Leaning(pieces int) (list []Point) {
	if m.Lean == nil {
		return nil
	}
	var of []Level
	for _, l := range m.Levels {
		if !l.Apart {
			of = append(of, l)
		}
	}
	slices.SortStableFunc(of, func(a, b Level) int { return cmp.Compare(a.Lift, b.Lift) })
	of = append(of, Level{Lift: m.Top})
	for k := 1; k < len(of); k++ {
		for n := range pieces {
			list = append(list, m.leaning(of[k-1], of[k], float64(n)/float64(pieces)))
		}
	}
	return append(list, m.leaning(of[len(of)-1], of[len(of)-1], 0))
}

// leaning is where the line has the middle, a share of the way from one level to another.
func (m Measured) leaning(from, to Level, share float64) Point {
	p := m.between(Point{Angle: from.Duration, Lift: from.Lift}, Point{Angle: to.Duration, Lift: to.Lift}, share)
	return Point{Angle: m.Lean.Nose.Angle + geometry.Angle(m.Lean.Lambda.Value)*p.Angle, Lift: p.Lift}
}
