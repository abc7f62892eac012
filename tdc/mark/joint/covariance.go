package joint

import (
	"errors"

	"gonum.org/v1/gonum/mat"

	"evendrop/tdc/mark"
)

// covariance is the findings' own: its diagonal their variances as measured and as
// built, and between two read on the protractor what the TDC they share leaves
// both.
func covariance(findings []mark.Judged) *mat.SymDense {
	v := mat.NewSymDense(len(findings), nil)
	for i, f := range findings {
		for j := range i {
			v.SetSym(i, j, f.Covariance(findings[j]))
		}
		v.SetSym(i, i, square(f.Uncertainty.Radians())+square(f.AsBuilt()))
	}
	return v
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

func newWhitener(findings []mark.Judged) (*whitener, error) {
	var c mat.Cholesky
	if !c.Factorize(covariance(findings)) {
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
