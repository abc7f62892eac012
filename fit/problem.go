package fit

import (
	"fmt"
	"math"
)

// Model is the curve y_i = f_i(x_i; beta).
type Model interface {
	// Evaluate fills, for every observation i, y[i] with f_i(x[i]), slope[i]
	// with its derivative by x, and jac[j][i] with its derivative by beta[j].
	// It keeps none of the slices.
	Evaluate(beta, x, y, slope []float64, jac [][]float64)
}

// Prior is what is known of a parameter before the readings: a value and its
// standard uncertainty. A Sigma of +Inf says nothing, one of 0 holds the
// parameter at Mean.
type Prior struct {
	Mean, Sigma float64
}

// Free is the prior that says nothing.
func Free() Prior { return Prior{Sigma: math.Inf(1)} }

// Held is the prior that leaves no choice.
func Held(value float64) Prior { return Prior{Mean: value} }

// Problem is a curve, what was observed of it, and what was known before.
type Problem struct {
	Model  Model
	X, Y   []float64 // observed, one each a reading
	SigmaX []float64 // standard uncertainties of X; nil: X is exact; 0: so is this one
	SigmaY []float64 // standard uncertainties of Y, all above zero
	Priors []Prior   // one a parameter
	// Tolerance is the step, in standard uncertainties, at which the solution
	// is good enough; 0 stands for 1e-10.
	Tolerance float64
	// MaxSteps bounds the steps tried; 0 stands for 3000.
	MaxSteps int
}

// check names the first thing that makes p no problem to solve.
func (p Problem) check() error {
	n := len(p.X)
	if len(p.Y) != n || len(p.SigmaY) != n || (p.SigmaX != nil && len(p.SigmaX) != n) {
		return fmt.Errorf("fit: X, Y, SigmaX and SigmaY hold %d, %d, %d and %d numbers; they must be as many",
			n, len(p.Y), len(p.SigmaX), len(p.SigmaY))
	}
	for i := range p.X {
		sigmaX := 0.0
		if p.SigmaX != nil {
			sigmaX = p.SigmaX[i]
		}
		if !finite(p.X[i]) || !finite(p.Y[i]) || !finite(sigmaX) || sigmaX < 0 || !finite(p.SigmaY[i]) || p.SigmaY[i] <= 0 {
			return fmt.Errorf("fit: observation %d is not finite, or its uncertainty is not above zero: x %g ± %g, y %g ± %g",
				i, p.X[i], sigmaX, p.Y[i], p.SigmaY[i])
		}
	}
	for j, prior := range p.Priors {
		if !finite(prior.Mean) || math.IsNaN(prior.Sigma) || prior.Sigma < 0 {
			return fmt.Errorf("fit: prior %d is not valid: %g ± %g", j, prior.Mean, prior.Sigma)
		}
	}
	return nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
