package fit

import "math"

// triangle is an upper triangular system R x = q, built up by folding rows in.
type triangle struct {
	r [][]float64 // r[k][j] is the element in row j, column k, j <= k
	q []float64
}

func newTriangle(m int) triangle {
	return triangle{r: matrix(m, m), q: make([]float64, m)}
}

// matrix is a slice of columns on one backing array.
func matrix(columns, rows int) [][]float64 {
	backing := make([]float64, columns*rows)
	m := make([][]float64, columns)
	for k := range m {
		m[k] = backing[k*rows : (k+1)*rows : (k+1)*rows]
	}
	return m
}

// diagonal makes t the system diag(d) x = 0.
func (t triangle) diagonal(d []float64) {
	for k, column := range t.r {
		clear(column)
		column[k] = d[k]
	}
	clear(t.q)
}

// fold adds the rows a x = b by Householder reflections, one a column: the sum
// of squares |R x - q|^2 + |a x - b|^2 differs from |R' x - q'|^2 by a constant.
// The columns a and b are used up.
func (t triangle) fold(a [][]float64, b []float64) {
	for k := range a {
		v := a[k]
		head := t.r[k][k]
		norm2 := dot(v, v)
		if norm2 == 0 {
			continue
		}
		alpha := -math.Copysign(math.Sqrt(head*head+norm2), head)
		v0 := head - alpha
		t.r[k][k] = alpha
		beta := 2 / (v0*v0 + norm2)
		for j := k + 1; j < len(a); j++ {
			s := beta * (v0*t.r[j][k] + dot(v, a[j]))
			t.r[j][k] -= s * v0
			axpy(-s, v, a[j])
		}
		s := beta * (v0*t.q[k] + dot(v, b))
		t.q[k] -= s * v0
		axpy(-s, v, b)
	}
}

// solve puts the solution into x, and tells the first column whose diagonal is
// nought for its length, or -1.
func (t triangle) solve(x []float64) (deficient int) {
	deficient = t.deficient()
	if deficient >= 0 {
		return deficient
	}
	copy(x, t.q)
	for k := len(x) - 1; k >= 0; k-- {
		x[k] /= t.r[k][k]
		axpy(-x[k], t.r[k][:k], x[:k])
	}
	return -1
}

// deficient is the first column that the ones before it make up, to within
// rounding, or -1.
func (t triangle) deficient() int {
	for k, column := range t.r {
		length := math.Sqrt(dot(column[:k+1], column[:k+1]))
		if !(math.Abs(column[k]) > 1e-13*length) {
			return k
		}
	}
	return -1
}

// covariance fills c with the inverse of R'R.
func (t triangle) covariance(c [][]float64) {
	m := len(t.r)
	inverse := matrix(m, m) // columns of R^-1
	for k := range inverse {
		x := inverse[k]
		x[k] = 1
		for j := k; j >= 0; j-- {
			x[j] /= t.r[j][j]
			axpy(-x[j], t.r[j][:j], x[:j])
		}
	}
	for i := range m {
		for j := range m {
			sum := 0.0
			for k := max(i, j); k < m; k++ {
				sum += inverse[k][i] * inverse[k][j]
			}
			c[i][j] = sum
		}
	}
}

func dot(a, b []float64) float64 {
	b = b[:len(a)]
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}

func axpy(s float64, a, b []float64) {
	b = b[:len(a)]
	for i, x := range a {
		b[i] += s * x
	}
}
