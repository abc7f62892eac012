package tdc_test

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// bound is the Cramer-Rao bound on TDC, degrees: the least standard error that an
// estimate from the layout's readings and the stated ranges can have. The
// derivatives are differences of the bench's own angles and depths.
func (p point) bound() float64 {
	setup := p.setup
	middle := bench{
		throw: float64(setup.Engine.Stroke) / 2, rod: float64(setup.Engine.Rod), across: float64(setup.Engine.Offset()),
		lash: float64(setup.Gauge.Lash), gauge: 1, radius: float64(setup.Protractor.Radius),
	}
	type opening struct {
		halfWidth, step float64 // of the stated range; of the difference
		move            func(b *bench, by float64)
	}
	open := []opening{ // TDC and zero, of which nothing is stated, then the others
		{0, 1e-4, func(b *bench, by float64) { b.start += by }},
		{0, 1e-3, func(b *bench, by float64) { b.zero += by }},
		{setup.Gauge.ScaleKnownTo, 1e-3, func(b *bench, by float64) { b.gauge += by }},
		{float64(setup.Gauge.LashKnownTo), 1e-3, func(b *bench, by float64) { b.lash += by }},
		{float64(setup.Engine.KnownTo.Offset), 1e-2, func(b *bench, by float64) { b.across += by }},
		{float64(setup.Protractor.OffCentre), 1e-2, func(b *bench, by float64) { b.shiftWheel(by, 0) }},
		{float64(setup.Protractor.OffCentre), 1e-2, func(b *bench, by float64) { b.shiftWheel(by, math.Pi/2) }},
		{float64(setup.Engine.KnownTo.Stroke), 1e-3, func(b *bench, by float64) { b.throw += by / 2 }},
		{float64(setup.Engine.KnownTo.Rod), 1e-2, func(b *bench, by float64) { b.rod += by }},
	}
	// a range of no width leaves nothing open
	open = slices.Concat(open[:2], slices.DeleteFunc(open[2:], func(o opening) bool { return o.halfWidth == 0 }))
	middle = middle.settled()
	places := p.layout.meant(middle)
	slope := make([]float64, len(places)) // mm per radian of the wheel
	for i, at := range places {
		const du = 1e-4
		slope[i] = (middle.smooth(place{at.u + du, at.turn}) - middle.smooth(place{at.u - du, at.turn})) /
			(middle.shown(at.u+du) - middle.shown(at.u-du))
	}
	jac := make([][]float64, len(open))
	for j, o := range open {
		plus, minus := middle, middle
		o.move(&plus, o.step)
		o.move(&minus, -o.step)
		plus, minus = plus.settled(), minus.settled()
		// the wheel's own error at TDC belongs to TDC
		plus.start -= plus.truth() - plus.start
		minus.start -= minus.truth() - minus.start
		for i, at := range places {
			depth := plus.smooth(at) - minus.smooth(at)
			angle := plus.shown(at.u) - minus.shown(at.u)
			jac[j] = append(jac[j], (depth-slope[i]*angle)/(2*o.step))
		}
	}
	sx, sy := setup.Protractor.Uncertainty().Radians(), setup.Gauge.Uncertainty().Millimetres()
	information := mat.NewSymDense(len(open), nil)
	for j := range open {
		for k := range j + 1 {
			sum := 0.0
			for i := range places {
				sum += jac[j][i] * jac[k][i] / (sy*sy + slope[i]*slope[i]*sx*sx)
			}
			if h := open[j].halfWidth; j == k && h > 0 {
				sum += 3 / (h * h) // one over the variance of a rectangle
			}
			information.SetSym(j, k, sum)
		}
	}
	var inverse mat.Dense
	if err := inverse.Inverse(information); err != nil {
		return math.NaN()
	}
	return math.Sqrt(inverse.At(0, 0)) / degree
}

// smooth is the depth with the lash taken up, however near TDC.
func (b bench) smooth(at place) float64 {
	side := math.Copysign(1, at.u*float64(at.turn))
	return b.zero + b.gauge*(b.drop(at.u)-side*b.lash/2)
}

// shiftWheel moves the wheel's centre.
func (b *bench) shiftWheel(by, direction float64) {
	x := b.wheel*math.Cos(b.phase) + by*math.Cos(direction)
	y := b.wheel*math.Sin(b.phase) + by*math.Sin(direction)
	b.wheel, b.phase = math.Hypot(x, y), math.Atan2(y, x)
}
