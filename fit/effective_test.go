package fit_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// effective is the shortcut that orthogonal distances are tested against: least
// squares in y alone, the abscissae as observed, sigma^2 = sigma_y^2 + (slope
// sigma_x)^2, weighted anew until it settles.
func effective(t *testing.T, p fit.Problem, start []float64) fit.Solution {
	t.Helper()
	n, beta := len(p.X), slices.Clone(start)
	inY := p
	inY.SigmaX, inY.SigmaY = nil, make([]float64, n)
	y, slope, jac := make([]float64, n), make([]float64, n), blank(len(beta), n)
	for range 200 {
		p.Model.Evaluate(beta, p.X, y, slope, jac)
		for i := range slope {
			inY.SigmaY[i] = math.Hypot(p.SigmaY[i], slope[i]*p.SigmaX[i])
		}
		got := solve(t, inY, beta, fit.LeastSquares())
		moved := 0.0
		for j, b := range got.Beta {
			moved = math.Max(moved, math.Abs(b/beta[j]-1))
		}
		if moved < 1e-13 {
			return got
		}
		copy(beta, got.Beta)
	}
	require.Fail(t, "the weights do not settle")
	return fit.Solution{}
}

func blank(columns, rows int) [][]float64 {
	m := make([][]float64, columns)
	for j := range m {
		m[j] = make([]float64, rows)
	}
	return m
}

// apart is how far the shortcut lies from the orthogonal solution, in the
// deviations of the latter.
func apart(t *testing.T, p fit.Problem, start []float64) []float64 {
	t.Helper()
	want := solve(t, p, start, fit.LeastSquares())
	sd, got := deviations(t, want.Covariance()), effective(t, p, start)
	off := make([]float64, len(sd))
	for j := range off {
		off[j] = (got.Beta[j] - want.Beta[j]) / sd[j]
	}
	return off
}

// On York's data the shortcut ends elsewhere, even though a line has no bend: it
// lets the weights follow the slope, but does not let the slope mind that they
// do. The shortcut's end is a closed form iterated in 40 digits; York's is the
// published one.
func TestEffectiveVarianceOnYork(t *testing.T) {
	p, start := pearsonYork(), []float64{5, -0.4}
	short := effective(t, p, start)
	near(t, []float64{5.396052298999295, -0.4634489250944348}, short.Beta, 1e-11, 0, "the shortcut")
	near(t, []float64{11.95644865219169}, []float64{short.Cost}, 1e-11, 0, "the shortcut's chi-square")
	near(t, []float64{0.2956665538294751, 0.05780085945715929}, deviations(t, short.Covariance()), 1e-11, 0, "its deviations")
	orthogonal := solve(t, p, start, fit.LeastSquares())
	near(t, []float64{5.47991022403, -0.48053340745}, orthogonal.Beta, 0, 5e-12, "Williamson, Can. J. Phys. 46 (1968) 1845")
	require.Less(t, orthogonal.Cost, short.Cost)
	// The numbers above, subtracted and divided by 0.29497074 and 0.05798501.
	near(t, []float64{-0.28429, 0.29464}, apart(t, p, start), 0, 5e-6, "apart, in deviations")
}

// On a curve the two agree as errors in x vanish, and part as their square, but
// for a next term that at a tenth of the errors is some hundredths. With the
// whole errors of ODRPACK's example they are a fifth of a deviation apart.
func TestEffectiveVarianceOnACurve(t *testing.T) {
	var most [3]float64 // of the parameters, at errors in x of 1, 0.1 and 0.01
	for k := range most {
		p := explicit()
		for i := range p.SigmaX {
			p.SigmaX[i] *= math.Pow(10, -float64(k))
		}
		for _, off := range apart(t, p, []float64{1264, -54, -0.09}) {
			most[k] = math.Max(most[k], math.Abs(off))
		}
	}
	t.Logf("apart by %.2g deviations", most)
	near(t, []float64{0.2}, most[:1], 0, 0.01, "whole errors")
	near(t, []float64{100}, []float64{most[1] / most[2]}, 0.1, 0, "a tenth of the errors")
}
