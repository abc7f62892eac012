package subset

import "math"

// dependent is the part of a column's square that must be its own for it to tell
// anything beside those before it: rounding leaves some 1e-15 of none, and columns of
// zeros and ones no less than a tenth of something.
const dependent = 1e-9

// Factor is the lower Cholesky factor of B'B over a set of columns.
type Factor struct {
	set   []int
	lower [Most][Most]float64
}

// Factor is that of a set of at most Most columns, which stays the caller's; false when
// one column follows from the others, so that a smaller set says the same.
func (c *Columns) Factor(set []int) (f Factor, independent bool) {
	f.set = set
	for i, g := range set {
		for j := range i + 1 {
			sum := c.gram[g][set[j]]
			for k := range j {
				sum -= f.lower[i][k] * f.lower[j][k]
			}
			switch {
			case j < i:
				f.lower[i][j] = sum / f.lower[j][j]
			case sum <= dependent*c.gram[g][g]:
				return f, false
			default:
				f.lower[i][i] = math.Sqrt(sum)
			}
		}
	}
	return f, true
}

// Solve is the set's unknowns and the chi-square that they leave.
func (f *Factor) Solve(y Observed) (x []float64, chiSquare float64) {
	n := len(f.set)
	x = make([]float64, n)
	chiSquare = y.own
	for i := range n {
		sum := y.by[f.set[i]]
		for k := range i {
			sum -= f.lower[i][k] * x[k]
		}
		x[i] = sum / f.lower[i][i]
		chiSquare -= x[i] * x[i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= f.lower[k][i] * x[k]
		}
		x[i] /= f.lower[i][i]
	}
	return x, math.Max(0, chiSquare)
}

// Uncertainties is the unknowns' standard uncertainties: the square roots of the diagonal
// of (B'B)^-1 over the set, the columns of the factor's inverse squared.
func (f *Factor) Uncertainties() []float64 {
	n := len(f.set)
	out := make([]float64, n)
	for j := range n {
		var column [Most]float64
		sum := 0.0
		for i := j; i < n; i++ {
			for k := j; k < i; k++ {
				column[i] -= f.lower[i][k] * column[k]
			}
			if i == j {
				column[i] = 1
			}
			column[i] /= f.lower[i][i]
			sum += column[i] * column[i]
		}
		out[j] = math.Sqrt(sum)
	}
	return out
}
