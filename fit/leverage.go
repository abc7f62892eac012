package fit

import "math"

// Distance is how far reading i lies from the nearest point of the curve, in
// standard uncertainties of both variables: what the loss weighs.
func (a Solution) Distance(i int) float64 {
	return math.Sqrt(a.solver.distance2(&a.solver.now, i))
}

// Leverage is how much of itself reading i explains: the share of its residual's
// variance, from 0 to 1, that the adjustment takes up, given the covariance of
// the same solution. Summed over the readings, priors apart, it is the number of
// parameters that the readings had to give (Hoaglin1978).
func (a Solution) Leverage(i int, covariance [][]float64) float64 {
	s := a.solver
	_, sigma := a.Residual(i)
	sum := 0.0
	for j := range covariance {
		for k := range covariance {
			sum += covariance[j][k] * s.now.jac[j][i] * s.now.jac[k][i]
		}
	}
	return sum * a.Weight(i) / (sigma * sigma)
}
