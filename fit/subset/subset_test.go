package subset_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"evendrop/fit/subset"
)

// columns is what seven observations show of as many unknowns; the first is the second
// and the last together.
var columns = [][]float64{
	{1, 0, 1, 0, 0, -1, -1}, {0, 0, 1, 0, 0, -1, -1}, {0, 1, 0, 0, 0, 0, 0}, {0, 0, 0, 1, 1, 1, 1},
	{0, 0, 0, 0, 1, 0, 1}, {0, 0, 0, 1, 0, 1, 0}, {1, 1, 1, 1, 1, 0, 0}, {1, 0, 0, 0, 0, 0, 0},
}

// covariance is of observations known to 0.2, 0.5, 0.2, 0.5, 0.5, 0.3 and 0.3, of which the
// first five share 0.15.
func covariance() *mat.SymDense {
	v := mat.NewSymDense(7, nil)
	for i, own := range []float64{0.2, 0.5, 0.2, 0.5, 0.5, 0.3, 0.3} {
		for j := range min(i, 5) {
			if i < 5 {
				v.SetSym(i, j, 0.15*0.15)
			}
		}
		v.SetSym(i, i, own*own)
		if i < 5 {
			v.SetSym(i, i, own*own+0.15*0.15)
		}
	}
	return v
}

// Sets of one, two and three against the normal equations with a dense inverse.
func TestSetsAgainstDenseAlgebra(t *testing.T) {
	values := []float64{9, -14, 21, 4, 17, -3, 8}
	c, ok := subset.New(covariance(), columns)
	require.True(t, ok)
	var inverse mat.Dense
	require.NoError(t, inverse.Inverse(covariance()))
	y := mat.NewVecDense(7, values)
	for _, set := range [][]int{{4}, {0, 3}, {1, 6}, {0, 2, 5}} {
		a := mat.NewDense(7, len(set), nil)
		for k, j := range set {
			a.SetCol(k, columns[j])
		}
		var weighted, normal, cov mat.Dense
		weighted.Mul(a.T(), &inverse)
		normal.Mul(&weighted, a)
		require.NoError(t, cov.Inverse(&normal))
		var right, x, left, half mat.VecDense
		right.MulVec(&weighted, y)
		x.MulVec(&cov, &right)
		left.MulVec(a, &x)
		left.SubVec(y, &left)
		half.MulVec(&inverse, &left)
		factor, independent := c.Factor(set)
		require.True(t, independent)
		got, chi := factor.Solve(c.Observe(values))
		require.InEpsilon(t, mat.Dot(&left, &half), chi, 1e-9)
		u := factor.Uncertainties()
		for k := range set {
			require.InDelta(t, x.AtVec(k), got[k], 1e-11) // of some 20
			require.InEpsilon(t, math.Sqrt(cov.At(k, k)), u[k], 1e-9)
		}
	}
}

// A column that follows from two others makes no set with them.
func TestDependentSetsAreLeftOut(t *testing.T) {
	c, ok := subset.New(covariance(), columns)
	require.True(t, ok)
	_, independent := c.Factor([]int{0, 1, 7})
	require.False(t, independent)
}

// What is known without any uncertainty weighs more than any number can.
func TestNoUncertaintyIsRefused(t *testing.T) {
	_, ok := subset.New(mat.NewSymDense(7, nil), columns)
	require.False(t, ok)
}
