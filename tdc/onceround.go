package tdc

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// onceRound fits a constant and a sine and cosine of the place to errors (radians)
// of known uncertainty, and is their amplitudes and the greater one's uncertainty;
// false when the places do not tell them apart.
func onceRound(at, off, sigma []float64) (sine, cosine, uncertainty float64, ok bool) {
	n := len(at)
	design, right := mat.NewDense(n, 3, nil), mat.NewVecDense(n, nil)
	for i := range at {
		w := 1 / sigma[i]
		sin, cos := math.Sincos(at[i])
		design.SetRow(i, []float64{w, w * sin, w * cos})
		right.SetVec(i, w*off[i])
	}
	var square, inverse mat.Dense
	square.Mul(design.T(), design)
	if inverse.Inverse(&square) != nil {
		return 0, 0, 0, false
	}
	var beta, normal mat.VecDense
	normal.MulVec(design.T(), right)
	beta.MulVec(&inverse, &normal)
	return beta.AtVec(1), beta.AtVec(2), math.Sqrt(math.Max(inverse.At(1, 1), inverse.At(2, 2))), true
}
