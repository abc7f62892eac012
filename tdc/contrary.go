package tdc

import (
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// leg is readings that follow one another one way, as one sweep of one turn.
type leg struct {
	from, to int // the first and the last reading
	steps    int
	way      float64 // +1: the way that they were turned; -1: the other way
}

// contrary tells whether the leg goes the other way than it was turned.
func (l leg) contrary() bool { return l.way < 0 }

// fewestContrary is how many steps speak of an order.
const fewestContrary = 4

// legs is the readings in the order they were written. Angles nearer than still are
// one place, read again; a turning point belongs to both of its legs.
func legs(read []evidence.Reading, still geometry.Angle) (list []leg) {
	anchor := 0 // the last reading that made a step
	current := leg{}
	end := func() {
		if current.steps > 0 {
			list = append(list, current)
		}
	}
	for i := 1; i < len(read); i++ {
		if unlikeSweeps(read[i-1], read[i]) {
			end()
			anchor, current = i, leg{from: i, to: i}
			continue
		}
		by := onward(read[anchor], read[i])
		way := 1.0
		if by < 0 {
			way = -1
		}
		switch {
		case geometry.Angle(way*by) < still:
		case current.steps > 0 && way != current.way:
			end()
			current = leg{from: i - 1, steps: 1, way: way}
			anchor = i
		default:
			current.way, current.steps = way, current.steps+1
			anchor = i
		}
		current.to = i
	}
	end()
	return list
}

// overTop tells whether a leg comes over TDC, with two readings or more on either
// side of it: one alone may be the jump from one sweep to the next.
func (l leg) overTop(read []evidence.Reading, tdc geometry.Angle) bool {
	before, after := 0, 0
	for _, r := range read[l.from : l.to+1] {
		if (r.Angle - tdc).Signed() < 0 {
			before++
		} else {
			after++
		}
	}
	return before >= 2 && after >= 2
}

// unlikeSweeps tells whether a reading begins another sweep than the one before it.
func unlikeSweeps(before, r evidence.Reading) bool {
	return r.Turn != before.Turn || r.Sweep != before.Sweep
}

// onward is how far a reading lies on from the one before it, the way that they were
// turned; zero between readings of unlike sweeps.
func onward(before, r evidence.Reading) float64 {
	if unlikeSweeps(before, r) {
		return 0
	}
	return float64((r.Angle - before.Angle).Signed()) * float64(r.Turn)
}

// contrary tells whether one reading lies the wrong way from the one before it.
func contrary(before, r evidence.Reading) bool { return onward(before, r) < 0 }

// AgainstTheirTurn is how many of the last readings lie, each from the one before it, the
// other way than they say they were turned; 0 where it is one alone, which may begin
// another sweep.
func AgainstTheirTurn(read []evidence.Reading) (count int) {
	for i := len(read) - 1; i > 0 && contrary(read[i-1], read[i]); i-- {
		count++
	}
	if count < 2 {
		return 0
	}
	return count
}
