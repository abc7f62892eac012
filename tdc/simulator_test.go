package tdc_test

import (
	"math"
	"math/rand/v2"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// A bench that shares nothing with what it tests: the slider-crank is a distance
// kept between two points, TDC the highest place found by search, the wheel a
// disc whose centre stands beside the crank's, the lash a piston left behind
// until its clearance is used up, the steps real rounding.

// degree is one, in radians; the bench computes in radians and millimetres.
const degree = math.Pi / 180

// bench is one engine with instruments on it, as they truly are.
type bench struct {
	throw, rod, across float64 // across: how far the bore stands to the +x side
	lash               float64
	gauge              float64 // what the gauge shows of a millimetre
	zero               float64 // what it shows with the piston as high as it goes, lash apart
	wheel, phase       float64 // the wheel's centre from the crank's, and in which direction
	radius             float64 // from the crank's axis to the pointer
	start              float64 // what a centred wheel would show at TDC
	tdc, top           float64 // crank angle of the highest point from throw-along-bore, and its height
}

// settled is b with its highest point looked up.
func (b bench) settled() bench {
	b.tdc = highest(b.height, -0.6, 0.6)
	b.top = b.height(b.tdc)
	return b
}

// height is that of the piston pin with the crank at t from throw-along-bore: the
// point on the bore's line that lies a rod away from the crank pin, by Newton's
// steps from a rod straight above it.
func (b bench) height(t float64) float64 {
	sin, cos := math.Sincos(t)
	x, y := b.across-b.throw*sin, b.rod
	for range 50 {
		step := (x*x + y*y - b.rod*b.rod) / (2 * y)
		y -= step
		if math.Abs(step) < 1e-14*b.rod {
			break
		}
	}
	return b.throw*cos + y
}

// highest is where f is greatest between low and high, by golden section.
func highest(f func(float64) float64, low, high float64) float64 {
	const golden = 0.6180339887498949
	left, right := high-golden*(high-low), low+golden*(high-low)
	fLeft, fRight := f(left), f(right)
	for high-low > 1e-9 {
		if fLeft > fRight {
			high, right, fRight = right, left, fLeft
			left = high - golden*(high-low)
			fLeft = f(left)
		} else {
			low, left, fLeft = left, right, fRight
			right = low + golden*(high-low)
			fRight = f(right)
		}
	}
	return (low + high) / 2
}

// drop is how far the crank lets the piston down at u from TDC.
func (b bench) drop(u float64) float64 { return b.top - b.height(b.tdc+u) }

// shown is what the wheel shows at the pointer with the crank at u from TDC. In
// the wheel's own frame the pointer goes round the crank's axis; the graduation
// under it is where it stands as seen from the wheel's centre.
func (b bench) shown(u float64) float64 {
	sin, cos := math.Sincos(u)
	x, y := b.radius*cos-b.wheel*math.Cos(b.phase), b.radius*sin-b.wheel*math.Sin(b.phase)
	return b.start + u + math.Remainder(math.Atan2(y, x)-u, 2*math.Pi)
}

// truth is what the wheel shows at TDC: what is to be found.
func (b bench) truth() float64 { return b.shown(0) }

// place is where the crank is stopped to be read.
type place struct {
	u    float64
	turn evidence.TurnDirection
}

// depths is what a perfect gauge would show at each place, the crank going
// through them in order. The piston lags by half the lash, and on reversing it
// stays where it is until the crank has used up all of it. A sweep starts so far
// out that the lash is taken up.
func (b bench) depths(places []place) []float64 {
	var shown []float64
	low := 0.0 // how far below the highest point the piston is
	for i, p := range places {
		drop := b.drop(p.u)
		first := i == 0 || places[i-1].turn != p.turn
		switch {
		case first && p.u*float64(p.turn) < 0: // rising
			low = drop + b.lash/2
		case first || places[i-1].u*p.u < 0: // come over the top
			low = b.lash / 2
		}
		low = math.Max(drop-b.lash/2, math.Min(drop+b.lash/2, low))
		shown = append(shown, b.zero+b.gauge*low)
	}
	return shown
}

// layout is where somebody means to read: each flank's share of the readings and
// its range of crank angle, as fractions of the whole reach.
type layout struct {
	name                  string
	share                 float64 // of the readings before TDC, of a forward sweep
	beforeFrom, beforeTo  float64
	afterFrom, afterTo    float64
	scatteredBy           float64 // degrees either way that the crank misses the meant angle
	turns                 int     // 1: one way; 2: both ways
	readings              int
	reachMost, depthRange float64 // degrees, mm: whichever ends first
}

func balanced(turns, readings int) layout {
	return layout{name: "balanced", share: 0.5, beforeFrom: 1. / 6, beforeTo: 1, afterFrom: 1. / 6, afterTo: 1,
		scatteredBy: 1, turns: turns, readings: readings, reachMost: 30}
}

func lopsided(turns, readings int) layout {
	l := balanced(turns, readings)
	l.name, l.share, l.beforeFrom, l.afterTo = "different depths", 2./3, 1./3, 1./3
	return l
}

// meant is the places of a layout on an engine whose piston may go down no
// farther than the gauge reaches.
func (l layout) meant(b bench) []place {
	reach := l.reachMost * degree
	for l.depthRange > 0 && b.drop(reach) > l.depthRange {
		reach -= degree / 2
	}
	var places []place
	per := l.readings / l.turns
	before := int(math.Round(float64(per) * l.share))
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward}[:l.turns] {
		var sweep []place
		for i := range before {
			sweep = append(sweep, place{-reach * spread(l.beforeFrom, l.beforeTo, i, before), turn})
		}
		for i := range per - before {
			sweep = append(sweep, place{reach * spread(l.afterFrom, l.afterTo, i, per-before), turn})
		}
		places = append(places, inOrder(sweep)...)
	}
	return places
}

// spread is the i-th of n values evenly from a to b.
func spread(a, b float64, i, n int) float64 {
	if n == 1 {
		return (a + b) / 2
	}
	return a + (b-a)*float64(i)/float64(n-1)
}

// inOrder is a sweep's places as the crank comes to them.
func inOrder(sweep []place) []place {
	slices.SortStableFunc(sweep, func(x, y place) int {
		return int(math.Copysign(1, (x.u-y.u)*float64(x.turn)))
	})
	return sweep
}

// noise is what the instruments add.
type noise struct {
	normal float64 // 0: error and rounding within the bounds stated; else normal errors, so many standard uncertainties wide
}

// read is one job: the layout's places, missed by a little, read with the stated
// instruments' errors.
func (b bench) read(rng *rand.Rand, setup evidence.Setup, l layout, n noise) []evidence.Reading {
	places := l.meant(b)
	for i := range places {
		missed := places[i].u + l.scatteredBy*degree*(2*rng.Float64()-1)
		if missed*places[i].u > 0 {
			places[i].u = missed
		}
	}
	places = append(inOrder(slices.Clone(places[:len(places)/l.turns])), inOrder(slices.Clone(places[len(places)/l.turns:]))...)
	var readings []evidence.Reading
	for i, depth := range b.depths(places) {
		angle := b.shown(places[i].u) / degree
		protractor, gauge := setup.Protractor, setup.Gauge
		if n.normal > 0 {
			angle += n.normal * protractor.Uncertainty().Degrees() * rng.NormFloat64()
			depth += n.normal * float64(gauge.Uncertainty()) * rng.NormFloat64()
		} else {
			angle = rounded(angle+within(rng, protractor.Error.Degrees()), protractor.Step.Degrees())
			depth = rounded(depth+within(rng, float64(gauge.Error)), float64(gauge.Step))
		}
		readings = append(readings, evidence.Reading{
			Angle: geometry.Angle(angle) * geometry.Degree, Depth: geometry.Length(depth), Turn: places[i].turn, Line: i + 2,
		})
	}
	return readings
}

// within is a number drawn evenly from -bound to bound.
func within(rng *rand.Rand, bound float64) float64 { return bound * (2*rng.Float64() - 1) }

// rounded is what an instrument with a step shows.
func rounded(x, step float64) float64 {
	if step == 0 {
		return x
	}
	return math.Round(x/step) * step
}

// drawn is a bench drawn from all that a setup leaves open.
func drawn(rng *rand.Rand, s evidence.Setup) bench {
	known := s.Engine.KnownTo
	return bench{
		throw:  (float64(s.Engine.Stroke) + within(rng, float64(known.Stroke))) / 2,
		rod:    float64(s.Engine.Rod) + within(rng, float64(known.Rod)),
		across: float64(s.Engine.Offset()) + within(rng, float64(known.Offset)),
		lash:   math.Max(0, float64(s.Gauge.Lash)+within(rng, float64(s.Gauge.LashKnownTo))),
		gauge:  1 + within(rng, s.Gauge.ScaleKnownTo),
		zero:   20 * rng.Float64(),
		wheel:  float64(s.Protractor.OffCentre) * rng.Float64(),
		phase:  2 * math.Pi * rng.Float64(),
		radius: float64(s.Protractor.Radius),
		start:  2 * math.Pi * rng.Float64(),
	}.settled()
}
