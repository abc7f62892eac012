package tdc_test

import (
	"evendrop/tdc/benchtest"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// bound is the Cramer-Rao bound on TDC, degrees: the least standard error that an
// estimate from the layout's readings and the stated ranges can have. The
// derivatives are differences of the bench's own angles and depths.
func (p point) bound() float64 {
	setup := p.setup
	middle := benchtest.Bench{
		Throw: float64(setup.Engine.Stroke) / 2, Rod: float64(setup.Engine.Rod), Across: float64(setup.Engine.Offset()),
		Lash: float64(setup.Gauge.Lash), Gauge: 1, Radius: float64(setup.Protractor.Radius),
	}
	type opening struct {
		halfWidth, step float64 // of the stated range; of the difference
		move            func(b *benchtest.Bench, by float64)
	}
	open := []opening{ // TDC and zero, of which nothing is stated, then the others
		{0, 1e-4, func(b *benchtest.Bench, by float64) { b.Start += by }},
		{0, 1e-3, func(b *benchtest.Bench, by float64) { b.Zero += by }},
		{setup.Gauge.ScaleKnownTo, 1e-3, func(b *benchtest.Bench, by float64) { b.Gauge += by }},
		{float64(setup.Gauge.LashKnownTo), 1e-3, func(b *benchtest.Bench, by float64) { b.Lash += by }},
		{float64(setup.Engine.KnownTo.Offset), 1e-2, func(b *benchtest.Bench, by float64) { b.Across += by }},
		{float64(setup.Protractor.OffCentre), 1e-2, func(b *benchtest.Bench, by float64) { b.ShiftWheel(by, 0) }},
		{float64(setup.Protractor.OffCentre), 1e-2, func(b *benchtest.Bench, by float64) { b.ShiftWheel(by, math.Pi/2) }},
		{float64(setup.Engine.KnownTo.Stroke), 1e-3, func(b *benchtest.Bench, by float64) { b.Throw += by / 2 }},
		{float64(setup.Engine.KnownTo.Rod), 1e-2, func(b *benchtest.Bench, by float64) { b.Rod += by }},
	}
	// a range of no width leaves nothing open
	open = slices.Concat(open[:2], slices.DeleteFunc(open[2:], func(o opening) bool { return o.halfWidth == 0 }))
	middle = middle.Settled()
	places := p.layout.Meant(middle)
	slope := make([]float64, len(places)) // mm per radian of the wheel
	for i, at := range places {
		const du = 1e-4
		slope[i] = (middle.Smooth(benchtest.Place{U: at.U + du, Turn: at.Turn}) - middle.Smooth(benchtest.Place{U: at.U - du, Turn: at.Turn})) /
			(middle.Shown(at.U+du) - middle.Shown(at.U-du))
	}
	jac := make([][]float64, len(open))
	for j, o := range open {
		plus, minus := middle, middle
		o.move(&plus, o.step)
		o.move(&minus, -o.step)
		plus, minus = plus.Settled(), minus.Settled()
		// the wheel's own error at TDC belongs to TDC
		plus.Start -= plus.Truth() - plus.Start
		minus.Start -= minus.Truth() - minus.Start
		for i, at := range places {
			depth := plus.Smooth(at) - minus.Smooth(at)
			angle := plus.Shown(at.U) - minus.Shown(at.U)
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
