// Package subset is least squares by any few of many columns: observations with one
// covariance, of which all products of columns are worked out once.
package subset

import "gonum.org/v1/gonum/mat"

// Most is how many columns are fitted at once.
const Most = 3

// Columns is how observations answer to each of many unknowns. Whitened, the columns
// are B: of a set S the unknowns are x = (B'B)^-1 B'y over S, and chi-square is
// y'y - x'B'y.
type Columns struct {
	lower   mat.TriDense // covariance = lower lower'
	columns [][]float64  // B
	gram    [][]float64  // B'B
}

// New is columns over observations of a covariance; false where that is not positive
// definite.
func New(covariance *mat.SymDense, columns [][]float64) (*Columns, bool) {
	var cholesky mat.Cholesky
	if !cholesky.Factorize(covariance) {
		return nil, false
	}
	c := &Columns{}
	cholesky.LTo(&c.lower)
	for _, column := range columns {
		c.columns = append(c.columns, c.white(column))
	}
	for _, column := range c.columns {
		c.gram = append(c.gram, c.onto(column))
	}
	return c, true
}

// Observed is what was observed, ready for any set of columns.
type Observed struct {
	by  []float64 // B'y
	own float64   // y'y
}

// Observe makes values ready, in the order of the columns' rows.
func (c *Columns) Observe(values []float64) Observed {
	y := c.white(values)
	return Observed{c.onto(y), product(y, y)}
}

// onto is the products of each column with a white vector.
func (c *Columns) onto(y []float64) []float64 {
	out := make([]float64, len(c.columns))
	for j, column := range c.columns {
		out[j] = product(column, y)
	}
	return out
}

// white turns observations into as many of unit variance that share nothing: it solves
// the lower triangle.
func (c *Columns) white(of []float64) []float64 {
	out := make([]float64, len(of))
	for i := range of {
		sum := of[i]
		for j := range i {
			sum -= c.lower.At(i, j) * out[j]
		}
		out[i] = sum / c.lower.At(i, i)
	}
	return out
}

// product is the sum of products.
func product(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
