package fit

import "math"

// Solution is where a solve ended.
type Solution struct {
	Beta   []float64 // the parameters
	T      []float64 // the adjusted abscissae
	Cost   float64   // the objective: the sum of losses and squared prior residuals
	Status Status
	Steps  int
	solver *Solver
}

func (s *Solver) solution(status Status, steps int) Solution {
	return Solution{Beta: s.now.beta, T: s.now.t, Cost: s.now.cost, Status: status, Steps: steps, solver: s}
}

// Residual is reading i's distance from the curve in the direction of y, with x
// where it was observed, and its standard uncertainty from both variables.
func (a Solution) Residual(i int) (e, sigma float64) { return a.solver.residual(i, 0) }

// Standardised is reading i's residual over its standard uncertainty.
func (a Solution) Standardised(i int) float64 {
	e, sigma := a.Residual(i)
	return e / sigma
}

// Weight is what the loss left of reading i, from 1 to 0, at its distance from
// the curve in both variables.
func (a Solution) Weight(i int) float64 { return a.solver.weight(i) }

// ChiSquare is the sum of squared standardised residuals, priors among them,
// over the readings for which use says so; nil takes all.
func (a Solution) ChiSquare(use func(i int) bool) float64 {
	sum := 0.0
	for i := range a.solver.X {
		if use == nil || use(i) {
			sum += sq(a.Standardised(i))
		}
	}
	for _, j := range a.solver.free {
		prior := a.solver.Priors[j]
		sum += sq((a.Beta[j] - prior.Mean) / prior.Sigma)
	}
	return sum
}

// DegreesOfFreedom is the number of readings and priors less the number of
// parameters that were not held.
func (a Solution) DegreesOfFreedom() int {
	n := len(a.solver.X) - len(a.solver.free)
	for _, j := range a.solver.free {
		if !math.IsInf(a.solver.Priors[j].Sigma, 1) {
			n++
		}
	}
	return n
}

// Covariance is the covariance of the parameters at the solution to first
// order, as the uncertainties given say, not scaled by the scatter; symmetric,
// with zeros for held parameters. A reading of weight w counts as one whose
// variance is 1/w times as large. It is nil when the solution is undetermined.
func (a Solution) Covariance() [][]float64 {
	whole := matrix(len(a.Beta), len(a.Beta))
	if _, ok := a.CovarianceInto(whole); !ok {
		return nil
	}
	return whole
}

// CovarianceInto fills a matrix of noughts with Covariance, and is the logarithm of
// its determinant, held parameters apart; false when the solution is undetermined.
// It allocates nothing.
func (a Solution) CovarianceInto(whole [][]float64) (lnDet float64, ok bool) {
	s := a.solver
	s.linearise()
	if s.gauss.deficient() {
		return 0, false
	}
	s.gauss.covariance(s.small)
	for i, row := range s.free {
		lnDet -= 2 * math.Log(math.Abs(s.gauss.r[i][i]))
		for j, column := range s.free {
			whole[column][row] = s.small[j][i]
		}
	}
	return lnDet, true
}

// Gains is the derivative of one parameter by every observation.
type Gains struct {
	X, Y  []float64 // by each reading's x and y
	Prior []float64 // by each prior's mean
}

// Gains is how parameter k answers to the observations, to first order, given
// the covariance of the same solution.
func (a Solution) Gains(k int, covariance [][]float64) Gains {
	s := a.solver
	g := Gains{X: make([]float64, len(s.X)), Y: make([]float64, len(s.X)), Prior: make([]float64, len(a.Beta))}
	for i := range s.X {
		_, sigma := a.Residual(i)
		along := 0.0
		for j := range a.Beta {
			along += covariance[k][j] * s.now.jac[j][i]
		}
		g.Y[i] = along * s.weight(i) / (sigma * sigma)
		if s.sigmaX(i) > 0 {
			g.X[i] = -g.Y[i] * s.now.slope[i]
		}
	}
	for _, j := range s.free {
		g.Prior[j] = covariance[k][j] / sq(s.Priors[j].Sigma)
	}
	return g
}
