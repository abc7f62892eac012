package joint

import "math"

// dependent is the part of a column's square that must be its own for it to tell
// anything beside those before it: rounding leaves some 1e-15 of none, and the
// columns, of zeros and ones, no less than a tenth of something.
const dependent = 1e-9

// factor is the lower Cholesky factor of B'B over a set; false when one column
// follows from the others, so that a smaller set says the same.
func (s *search) factor(set []int) (lower [mostSlips][mostSlips]float64, independent bool) {
	for i, g := range set {
		for j := range i + 1 {
			sum := s.gram[g][set[j]]
			for k := range j {
				sum -= lower[i][k] * lower[j][k]
			}
			switch {
			case j < i:
				lower[i][j] = sum / lower[j][j]
			case sum <= dependent*s.gram[g][g]:
				return lower, false
			default:
				lower[i][i] = math.Sqrt(sum)
			}
		}
	}
	return lower, true
}

// solve is the slips of a set and the chi-square they leave.
func solve(lower [mostSlips][mostSlips]float64, set []int, u unwrapped) (x []float64, chiSquare float64) {
	n := len(set)
	x = make([]float64, n)
	chiSquare = u.own
	for i := range n {
		sum := u.by[set[i]]
		for k := range i {
			sum -= lower[i][k] * x[k]
		}
		x[i] = sum / lower[i][i]
		chiSquare -= x[i] * x[i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= lower[k][i] * x[k]
		}
		x[i] /= lower[i][i]
	}
	return x, math.Max(0, chiSquare)
}

// uncertainties is the square roots of the diagonal of (B'B)^-1 over a set: the
// columns of the factor's inverse squared.
func uncertainties(lower [mostSlips][mostSlips]float64, n int) []float64 {
	out := make([]float64, n)
	for j := range n {
		var column [mostSlips]float64
		sum := 0.0
		for i := j; i < n; i++ {
			for k := j; k < i; k++ {
				column[i] -= lower[i][k] * column[k]
			}
			if i == j {
				column[i] = 1
			}
			column[i] /= lower[i][i]
			sum += column[i] * column[i]
		}
		out[j] = math.Sqrt(sum)
	}
	return out
}
