package jobtest

import "math"

const degree = math.Pi / 180

// engine is an invented engine as it truly is, in radians and millimetres.
type engine struct {
	throw, rod, across float64 // across: how far the bore stands beside the crank, toward where the pin goes after TDC
	lash               float64
}

// height is the piston pin's with the crank at t from throw-along-bore: where the rod,
// swung about the crank pin, meets the bore's line.
func (e engine) height(t float64) float64 {
	sin, cos := math.Sincos(t)
	side := e.across - e.throw*sin
	return e.throw*cos + math.Sqrt(e.rod*e.rod-side*side)
}

// top is the crank angle and the height of TDC: throw and rod in one line.
func (e engine) top() (t, height float64) {
	reach := e.throw + e.rod
	height = math.Sqrt(reach*reach - e.across*e.across)
	return math.Atan2(e.across, height), height
}

// drop is how far down the crank has let the piston at u from TDC.
func (e engine) drop(u float64) float64 {
	t, height := e.top()
	return height - e.height(t+u)
}

// angleAt is how far from TDC, before it or after, the crank lets the piston down by
// a drop, by bisection.
func (e engine) angleAt(drop float64, after bool) float64 {
	side := -1.0
	if after {
		side = 1
	}
	low, high := 0.0, math.Pi/2
	for range 60 {
		if middle := (low + high) / 2; e.drop(side*middle) < drop {
			low = middle
		} else {
			high = middle
		}
	}
	return side * low
}

// low is how low the piston truly is at u, the crank turned up to it from far off,
// forward or backward: half the lash below while it is pushed up, and above once it
// has come over the top and the lash is taken up.
func (e engine) low(u float64, forward bool) float64 {
	drop := e.drop(u)
	if (u < 0) == forward {
		return drop + e.lash/2
	}
	return math.Max(drop-e.lash/2, e.lash/2)
}
