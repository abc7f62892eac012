package joint

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"

	"evendrop/tdc/mark"
)

// covariance is the findings' own: what each was measured to and built to, and between
// two what both share: the TDC and protractor that they were read by, and of one cam's
// wheel where it was fitted.
func covariance(findings []mark.Judged, wheels []wheel) *mat.SymDense {
	v := mat.NewSymDense(len(findings), nil)
	for i, f := range findings {
		for j := range i {
			v.SetSym(i, j, f.Covariance(findings[j]))
		}
		v.SetSym(i, i, square(f.Uncertainty.Radians()))
	}
	for _, b := range asBuilt(findings, wheels) {
		b.adds(v)
	}
	for _, w := range wheels {
		w.addsEngines(findings, v)
	}
	return v
}

// adds is a draw's part of the covariance.
func (b built) adds(v *mat.SymDense) {
	for k, i := range b.marks {
		for l, j := range b.marks[:k+1] {
			v.SetSym(i, j, v.At(i, j)+square(b.standard)*b.signs[k]*b.signs[l])
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

// product is the sum of products.
func product(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// whitener turns marks into as many of unit variance that share nothing.
type whitener struct{ lower mat.TriDense }

func newWhitener(v *mat.SymDense) (*whitener, error) {
	var c mat.Cholesky
	if !c.Factorize(v) {
		return nil, errors.New("the marks' uncertainties are zero or not numbers: state known_to of each off")
	}
	w := &whitener{}
	c.LTo(&w.lower)
	return w, nil
}

// white solves the lower triangle for a vector over the marks.
func (w *whitener) white(of []float64) []float64 {
	out := make([]float64, len(of))
	for i := range of {
		sum := of[i]
		for j := range i {
			sum -= w.lower.At(i, j) * out[j]
		}
		out[i] = sum / w.lower.At(i, i)
	}
	return out
}

func square(x float64) float64 { return x * x }
