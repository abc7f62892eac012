package fit_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// nonlinear are sets of NIST StRD nonlinear regression, with their models.
var nonlinear = []struct {
	name  string
	n     int // observations, as NIST states
	model curve
}{
	{"Misra1a", 14, saturation},
	{"Hahn1", 236, cubicOverCubic},
	{"Thurber", 37, cubicOverCubic},
	{"MGH09", 11, func(b []float64, x float64, g []float64) (y, slope float64) {
		top, bottom := x*x+x*b[1], x*x+x*b[2]+b[3]
		y = b[0] * top / bottom
		g[0], g[1], g[2], g[3] = top/bottom, b[0]*x/bottom, -y*x/bottom, -y/bottom
		return y, (b[0]*(2*x+b[1]) - y*(2*x+b[2])) / bottom
	}},
	{"Eckerle4", 35, func(b []float64, x float64, g []float64) (y, slope float64) {
		z := (x - b[2]) / b[1]
		y = b[0] / b[1] * math.Exp(-z*z/2)
		g[0], g[1], g[2] = y/b[0], y*(z*z-1)/b[1], y*z/b[1]
		return y, -y * z / b[1]
	}},
	// From start 1 along a bent valley.
	{"MGH10", 16, func(b []float64, x float64, g []float64) (y, slope float64) {
		e := math.Exp(b[1] / (x + b[2]))
		y = b[0] * e
		slope = -y * b[1] / ((x + b[2]) * (x + b[2]))
		g[0], g[1], g[2] = e, y/(x+b[2]), slope
		return y, slope
	}},
	// Where exp(-b2 x) is next to zero for every x, b2 does next to nothing: a first
	// step that is too long ends there.
	{"BoxBOD", 6, saturation},
	// From start 1 by where both exponentials are alike, b2 and b3 great and against
	// each other: the objective is 1.5 times its least there, and nearly flat.
	{"MGH17", 33, func(b []float64, x float64, g []float64) (y, slope float64) {
		slow, fast := math.Exp(-x*b[3]), math.Exp(-x*b[4])
		g[0], g[1], g[2], g[3], g[4] = 1, slow, fast, -x*b[1]*slow, -x*b[2]*fast
		return b[0] + b[1]*slow + b[2]*fast, -b[1]*b[3]*slow - b[2]*b[4]*fast
	}},
}

// saturation is b1 (1 - exp(-b2 x)).
func saturation(b []float64, x float64, g []float64) (y, slope float64) {
	e := math.Exp(-b[1] * x)
	g[0], g[1] = 1-e, b[0]*x*e
	return b[0] * (1 - e), b[0] * b[1] * e
}

// cubicOverCubic is (b1 + b2 x + b3 x^2 + b4 x^3) / (1 + b5 x + b6 x^2 + b7 x^3).
func cubicOverCubic(b []float64, x float64, g []float64) (y, slope float64) {
	bottom := 1 + x*(b[4]+x*(b[5]+x*b[6]))
	y = (b[0] + x*(b[1]+x*(b[2]+x*b[3]))) / bottom
	for k, power := 0, 1/bottom; k < 4; k, power = k+1, power*x {
		g[k] = power
		if k > 0 {
			g[k+3] = -y * power
		}
	}
	slope = (b[1] + x*(2*b[2]+3*x*b[3]) - y*(b[4]+x*(2*b[5]+3*x*b[6]))) / bottom
	return y, slope
}

// certified is what NIST certifies of a set.
type certified struct {
	starts        [2][]float64
	beta, sd      []float64
	residualSD    float64
	hasResidualSD bool
}

func certify(t *testing.T, name string) certified {
	t.Helper()
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return x
	}
	var c certified
	_, rows := table(t, "certified")
	for _, row := range rows {
		switch {
		case row[0] != name:
		case row[1] == "residual sd":
			c.residualSD, c.hasResidualSD = number(row[4]), true
		default:
			c.beta, c.sd = append(c.beta, number(row[4])), append(c.sd, number(row[5]))
			for k := range c.starts {
				if row[2+k] != "" {
					c.starts[k] = append(c.starts[k], number(row[2+k]))
				}
			}
		}
	}
	require.NotEmpty(t, c.beta, name)
	require.True(t, c.hasResidualSD, name)
	return c
}

// observations is a set's regressors, a column each, and its y.
func observations(t *testing.T, name string, n int) (x [][]float64, y []float64) {
	t.Helper()
	header, rows := table(t, name)
	require.Len(t, rows, n, name)
	columns := make([][]float64, len(header))
	for _, row := range rows {
		for c, cell := range row {
			value, err := strconv.ParseFloat(cell, 64)
			require.NoError(t, err)
			columns[c] = append(columns[c], value)
		}
	}
	last := len(columns) - 1
	require.Equal(t, "y", header[last])
	return columns[:last], columns[last]
}

// digits is the number of correct digits in the worst of got, NIST's log
// relative error; a NaN has none.
func digits(t *testing.T, want, got []float64) float64 {
	t.Helper()
	require.NotEmpty(t, want)
	require.Len(t, got, len(want))
	worst := 0.0
	for i, w := range want {
		off := math.Abs(got[i]-w) / math.Abs(w)
		if math.IsNaN(off) {
			return 0
		}
		worst = math.Max(worst, off)
	}
	return -math.Log10(math.Max(worst, 1e-16))
}

// NIST certifies 11 digits. A solver is asked for 6 of them on the parameters
// and 5 on their standard deviations, from both of NIST's starts.
func TestNISTNonlinear(t *testing.T) {
	for _, set := range nonlinear {
		want := certify(t, set.name)
		x, y := observations(t, set.name, set.n)
		solver, err := fit.NewSolver(fit.Problem{
			Model: set.model, X: x[0], Y: y, SigmaY: constant(set.n, 1), Priors: free(len(want.beta)),
		})
		require.NoError(t, err)
		for k, start := range want.starts {
			t.Run(set.name+" start "+strconv.Itoa(k+1), func(t *testing.T) {
				require.Len(t, start, len(want.beta))
				got := solver.Solve(start, fit.LeastSquares())
				require.Equal(t, fit.Converged, got.Status, "%v", got.Status)
				residualSD, sd := scatter(t, got)
				parameters, deviations := digits(t, want.beta, got.Beta), digits(t, want.sd, sd)
				spread := digits(t, []float64{want.residualSD}, []float64{residualSD})
				t.Logf("digits: parameters %.1f, their deviations %.1f, residual deviation %.1f; %d steps",
					parameters, deviations, spread, got.Steps)
				require.GreaterOrEqual(t, parameters, 6.0)
				require.GreaterOrEqual(t, deviations, 5.0)
				require.GreaterOrEqual(t, spread, 9.0)
			})
		}
	}
}

// scatter is the residual standard deviation and, scaled by it, the parameters'.
func scatter(t *testing.T, s fit.Solution) (residual float64, parameters []float64) {
	t.Helper()
	residual = math.Sqrt(s.Cost / float64(s.DegreesOfFreedom()))
	parameters = deviations(t, s.Covariance())
	for k := range parameters {
		parameters[k] *= residual
	}
	return residual, parameters
}
