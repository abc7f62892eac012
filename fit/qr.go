package fit

import "math"

// triangle is an upper triangular system R x = q, built up by folding rows in.
type triangle struct {
	r       [][]float64 // r[k][j] is the element in row j, column k, j <= k
	q       []float64
	inverse [][]float64 // room for that of r
}

func newTriangle(m int) triangle {
	return triangle{r: matrix(m, m), q: make([]float64, m), inverse: matrix(m, m)}
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

// solve puts the solution into x.
func (t triangle) solve(x []float64) {
	copy(x, t.q)
	t.backward(x)
}

// backward replaces x by R^-1 x.
func (t triangle) backward(x []float64) {
	for k := len(x) - 1; k >= 0; k-- {
		x[k] /= t.r[k][k]
		axpy(-x[k], t.r[k][:k], x[:k])
	}
}

// invert fills t.inverse.
func (t triangle) invert() {
	for k, column := range t.inverse {
		clear(column)
		column[k] = 1
		t.backward(column[:k+1])
	}
}

// noSine is the sine of a column's angle with all the others below which it is
// zero but for roundings, which leave some 1e-15 of it.
const noSine = 1e-13

// deficient tells whether the others make up some column. The sine of its angle
// with them all together is what the parameter's uncertainty would be were the
// others known over what it is, which neither units nor order change.
func (t triangle) deficient() bool {
	t.invert()
	for k, column := range t.r {
		known, unknown := dot(column[:k+1], column[:k+1]), 0.0 // one is 1/u^2, the other u^2
		for _, c := range t.inverse[k:] {
			unknown += c[k] * c[k]
		}
		if !(known*unknown < 1/(noSine*noSine)) {
			return true
		}
	}
	return false
}

// covariance fills c with the inverse of R'R.
func (t triangle) covariance(c [][]float64) {
	t.invert()
	for i := range c {
		for j := range c {
			sum := 0.0
			for _, column := range t.inverse[max(i, j):] {
				sum += column[i] * column[j]
			}
			c[i][j] = sum
		}
	}
}

// dot adds four products at a time: one sum after the other would wait for each addition.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float64
	for len(a) >= 4 && len(b) >= 4 {
		s0 += a[0] * b[0]
		s1 += a[1] * b[1]
		s2 += a[2] * b[2]
		s3 += a[3] * b[3]
		a, b = a[4:], b[4:]
	}
	for i, x := range a {
		s0 += x * b[i]
	}
	return (s0 + s1) + (s2 + s3)
}

func axpy(s float64, a, b []float64) {
	b = b[:len(a)]
	for i, x := range a {
		b[i] += s * x
	}
}
