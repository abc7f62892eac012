package look

import "evendrop/geometry"

// Ends is the best rough curve of each kind: the readings about TDC (Top) or about
// BDC (Bottom), with the depths as typed or turned round.
type Ends struct {
	Top, bottom, turnedTop, turnedBottom Rough
}

// All tries TDC all round the crank, then closer about the best of each kind, from
// angles in radians and depths in mm. A curve through depths turned round is the one
// through the depths as typed, upside down, so one pass finds all four.
func All(crank geometry.SliderCrank, angle, depth []float64) Ends {
	angle, depth = thinned(angle), thinned(depth)
	best := Ends{none, none, none, none}
	drop := make([]float64, len(angle))
	try := func(tdc float64) {
		near := drops(drop, crank, angle, tdc)
		found, ok := line(drop, depth)
		if found.TDC = tdc; ok && found.Scale != 0 {
			best.keep(found, near >= 0)
		}
	}
	round(0, try, func() []Rough { return []Rough{best.Top, best.bottom, best.turnedTop, best.turnedBottom} })
	return best
}

// keep puts a curve in its place when it is the best of its kind so far.
func (l *Ends) keep(found Rough, atTop bool) {
	place := &l.bottom
	switch turned := found.Scale < 0; {
	case atTop && turned:
		place = &l.turnedTop
	case atTop:
		place = &l.Top
	case turned:
		place = &l.turnedBottom
	}
	if found.Scale < 0 {
		found.Zero, found.Scale = -found.Zero, -found.Scale
	}
	if found.Misfit < place.Misfit {
		*place = found
	}
}
