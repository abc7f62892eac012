package cams

import "math"

// profile is a cam's flank: the share of the top lift at a share of the way from its foot
// to the nose.
type profile func(x float64) float64

// cycloid is s = x - sin(2 pi x)/(2 pi), a textbook's rise (lobes.md 3).
func cycloid(x float64) float64 { return x - math.Sin(2*math.Pi*x)/(2*math.Pi) }

// polynomial is the 3-4-5 one, s = 10 x^3 - 15 x^4 + 6 x^5 (lobes.md 3).
func polynomial(x float64) float64 { return x * x * x * (10 - 15*x + 6*x*x) }

// at is where on its flank a profile has a share of the top, by halving.
func (p profile) at(share float64) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		if middle := (low + high) / 2; p(middle) < share {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// cam is a lobe on an engine, as it truly is, and as its gauge sees it. Angles are crank
// degrees after TDC, lengths mm.
type cam struct {
	profile
	top           float64
	nose          float64
	before, after float64 // from the foot of a flank to the nose, and from there to the other's
	lost          float64 // lift that lash or wear takes away
	scale         float64 // what the gauge shows of a millimetre
	runOut, phase float64
}

// lift is what is left of the lobe's lift.
func (c cam) lift(u float64) float64 {
	length := c.before
	if u > c.nose {
		length = c.after
	}
	x := math.Max(0, 1-math.Abs(u-c.nose)/length)
	return math.Max(0, c.top*c.profile(x)-c.lost)
}

// event is where a flank, -1 the opening one, has a lift.
func (c cam) event(lift, side float64) float64 {
	length := c.before
	if side > 0 {
		length = c.after
	}
	return c.nose + side*length*(1-c.at((lift+c.lost)/c.top))
}

// shows is what a gauge without error of its own shows, its zero set on the heel.
func (c cam) shows(u float64) float64 {
	out := func(crank float64) float64 { return c.runOut / 2 * math.Sin(crank*math.Pi/360+c.phase) }
	return c.scale * (c.lift(u) + out(u) - out(c.nose+360))
}
