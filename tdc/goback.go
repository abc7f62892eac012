package tdc

import (
	"math"

	"evendrop/geometry"
)

// GoBack is what the gauge should show when the crank is turned back to an angle
// either side of the TDC found: the test of the answer at the bench.
type GoBack struct {
	Angle         geometry.Angle // before and after TDC
	Before, After Measured       // mm, as the gauge shows it, turned forward
}

// GoBack foretells the gauge; false when no depth was read.
func (r Result) GoBack(angle geometry.Angle) (GoBack, bool) {
	a := r.fit
	if len(a.read) == 0 || a.cov == nil {
		return GoBack{}, false
	}
	return GoBack{angle, a.foretold(-angle), a.foretold(angle)}, true
}

// foretold is the depth that the gauge should show at a crank angle from TDC turned
// forward, with what the adjustment leaves unsure and the gauge's own error.
func (a *adjustment) foretold(u geometry.Angle) Measured {
	one := curve{crank: a.crank, hang: a.curve.hang, turn: []float64{1}}
	y, slope := make([]float64, 1), make([]float64, 1)
	jac := make([][]float64, parCount)
	for j := range jac {
		jac[j] = make([]float64, 1)
	}
	one.Evaluate(a.best.Beta, []float64{a.best.Beta[parTDC] + float64(u)}, y, slope, jac)
	square := sq(float64(a.setup.Gauge.Uncertainty())) + sq(slope[0]*float64(a.setup.Protractor.Uncertainty()))
	for j := range a.cov {
		for k := range a.cov {
			square += jac[j][0] * a.cov[j][k] * jac[k][0]
		}
	}
	return Measured{float64(a.setup.Gauge.Falling(geometry.Length(y[0]))), a.widening.factor * math.Sqrt(square)}
}
