package fit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/optimize"

	"evendrop/fit"
)

// growth is beta[0] + beta[1] exp(beta[2] x).
func growth(b []float64, x float64, g []float64) (y, slope float64) {
	e := math.Exp(b[2] * x)
	g[0], g[1], g[2] = 1, e, b[1]*x*e
	return b[0] + b[1]*e, b[1] * b[2] * e
}

// lopsided is a curved problem in which no two things are alike: spacing,
// uncertainties, priors; one abscissa is exact, one reading is five scatters off.
func lopsided() fit.Problem {
	return fit.Problem{
		Model:  curve(growth),
		X:      []float64{-1.9, -1.2, -0.7, 0.1, 0.4, 1.3, 1.7, 2.6},
		Y:      []float64{1.38, 1.66, 1.77, 2.28, 3.10, 3.35, 4.02, 5.71},
		SigmaX: []float64{0.10, 0.07, 0.12, 0.05, 0.09, 0, 0.06, 0.11},
		SigmaY: []float64{0.06, 0.09, 0.05, 0.10, 0.08, 0.07, 0.12, 0.05},
		Priors: []fit.Prior{fit.Free(), {Mean: 1.1, Sigma: 0.3}, {Mean: 0.6, Sigma: 0.05}},
	}
}

// objective is what fit says it minimises, written a second time: over beta and
// every true abscissa, with cost a function of a reading's distance.
func objective(p fit.Problem, cost func(z float64) float64, beta, abscissae []float64) float64 {
	sum := 0.0
	for j, prior := range p.Priors {
		if !math.IsInf(prior.Sigma, 1) {
			sum += math.Pow((beta[j]-prior.Mean)/prior.Sigma, 2)
		}
	}
	for i, t := range abscissae {
		across := 0.0
		if p.SigmaX[i] > 0 {
			across = (p.X[i] - t) / p.SigmaX[i]
		} else {
			t = p.X[i]
		}
		sum += cost(math.Hypot(across, (p.Y[i]-beta[0]-beta[1]*math.Exp(beta[2]*t))/p.SigmaY[i]))
	}
	return sum
}

// losses are the costs again: Huber's from his paper (Ann. Math. Stat. 35 (1964)
// 73), the redescending one as the integral of what its Weight leaves.
var losses = []struct {
	name string
	loss fit.Loss
	cost func(z float64) float64
}{
	{"least squares", fit.LeastSquares(), func(z float64) float64 { return z * z }},
	{"Huber", fit.Huber(1.5), func(z float64) float64 {
		if k := 1.5 * 1.3449975; z > k {
			return k * (2*z - k)
		}
		return z * z
	}},
	{"redescending", fit.Redescending(1.5), func(z float64) float64 {
		const full, none = 1.5 * 3, 1.5 * 4.5
		inside := math.Min(z, full)
		pull := func(z float64) float64 { return 2 * z * fit.Redescending(1.5).Weight(z) }
		// A polynomial of degree 5: ten points integrate it exactly.
		return inside*inside + quad.Fixed(pull, inside, math.Min(z, none), 10, nil, 0)
	}},
}

// The minimum is where a general minimiser finds it, over all ten unknowns. Of
// the two searches each finds it to some 1e-7 of a standard deviation, where the
// objective is flat to its own rounding; the deviations are 0.04 to 0.1. Taken
// together, with what is left for the numeric gradient: 1e-7.
func TestSameMinimumAsGonum(t *testing.T) {
	for _, l := range losses {
		t.Run(l.name, func(t *testing.T) {
			p := lopsided()
			start := solve(t, p, []float64{1, 1, 0.6}, fit.Huber(1.5)).Beta
			got := solve(t, p, append([]float64{}, start...), l.loss)
			best := append(append([]float64{}, got.Beta...), got.T...)
			near(t, []float64{objective(p, l.cost, got.Beta, got.T)}, []float64{got.Cost}, 1e-13, 0, "objective")

			const unit = 0.01
			f := func(v []float64) float64 {
				at := make([]float64, len(v))
				for k := range v {
					at[k] = best[k] + unit*v[k]
				}
				return objective(p, l.cost, at[:3], at[3:])
			}
			problem := optimize.Problem{Func: f, Grad: func(grad, v []float64) {
				fd.Gradient(grad, f, v, &fd.Settings{Formula: fd.Central, Step: 1e-3})
			}}
			away := make([]float64, len(best))
			for k := range away {
				away[k] = float64(k%3) - 0.7
			}
			away[3+5] = 0 // the exact abscissa moves nothing
			// Its status says little: a line search fails at the minimum itself.
			found, err := optimize.Minimize(problem, away, nil, &optimize.BFGS{})
			require.NotNil(t, found, "%v", err)
			require.Greater(t, f(away), found.F+0.1, "it had some way to go")
			near(t, make([]float64, len(best)), found.X, 0, 1e-7/unit, "minimum")
		})
	}
}
