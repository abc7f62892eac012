package seen

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"evendrop/tdc/mark"
)

// covariance is the findings' own: what each was measured to and built to, and between
// two what both share: the TDC and protractor that they were read by, and of one cam's
// wheel where it was fitted.
func covariance(findings []mark.Judged, wheels []wheel, made []Built) *mat.SymDense {
	v := mat.NewSymDense(len(findings), nil)
	for i, f := range findings {
		for j := range i {
			v.SetSym(i, j, f.Covariance(findings[j]))
		}
		v.SetSym(i, i, square(f.Uncertainty.Radians()))
	}
	for _, b := range made {
		b.adds(v)
	}
	for _, w := range wheels {
		w.addsEngines(findings, v)
	}
	return v
}

// adds is a draw's part of the covariance.
func (b Built) adds(v *mat.SymDense) {
	for k, i := range b.Marks {
		for l, j := range b.Marks[:k+1] {
			v.SetSym(i, j, v.At(i, j)+square(b.Standard)*b.Signs[k]*b.Signs[l])
		}
	}
}

// addsEngines is what a wheel's edges share of how healthy engines differ, which each has
// in its own variance already: wheels are fitted, and edges are not.
func (w wheel) addsEngines(findings []mark.Judged, v *mat.SymDense) {
	for k, i := range w.marks {
		for l, j := range w.marks[:k] {
			v.SetSym(i, j, v.At(i, j)+w.signs[k]*w.signs[l]*math.Min(findings[i].OfEngines(), findings[j].OfEngines()))
		}
	}
}

func square(x float64) float64 { return x * x }
