package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
)

// normal is n by m numbers, a column each.
func normal(random *rand.Rand, n, m int) design {
	d := make(design, m)
	for j := range d {
		for range n {
			d[j] = append(d[j], random.NormFloat64())
		}
	}
	return d
}

// status is that of y, all ones, fitted by d with nothing known before.
func status(t *testing.T, d design) fit.Status {
	t.Helper()
	ones := constant(len(d[0]), 1)
	solver, err := fit.NewSolver(fit.Problem{Model: d, X: ones, Y: ones, SigmaY: ones, Priors: free(len(d))})
	require.NoError(t, err)
	return solver.Solve(make([]float64, len(d)), fit.LeastSquares()).Status
}

// A column made up of the others is found out, whatever its roundings, its
// place and everyone's units; also where the others are alike to 1 in a million
// and it is the little by which they differ.
func TestCollinearIsUndetermined(t *testing.T) {
	const seed = 3
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	for trial := range 2000 {
		n, m := 8+random.IntN(100), 2+random.IntN(6)
		d := append(normal(random, n, m-1), make([]float64, n))
		like := math.Pow(10, -6*random.Float64())
		for i := range n {
			for j := range m - 1 {
				share := 0.37 * float64(j+1)
				if trial%2 == 0 && m > 2 {
					share = float64(1 - 2*(j%2))
					if j > 0 {
						d[j][i] = d[0][i] + like*d[j][i]
					}
				}
				d[m-1][i] += share * d[j][i]
			}
		}
		if trial%3 == 0 {
			d = append(d, normal(random, n, 1)[0]) // one that can be told
		}
		random.Shuffle(len(d), func(i, j int) { d[i], d[j] = d[j], d[i] })
		for j := range d {
			unit := math.Pow(10, 40*random.Float64()-20)
			for i := range d[j] {
				d[j][i] *= unit
			}
		}
		require.Equal(t, fit.Undetermined, status(t, d), "trial %d", trial)
	}
}

// Two columns alike but for 1 in 1e9 can be told apart, in any order and unit.
func TestNearlyCollinearIsDetermined(t *testing.T) {
	const seed = 4
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	for range 500 {
		d := normal(random, 40, 4)
		for i := range d[0] {
			d[3][i] = d[0][i] + 1e-9*d[3][i]
		}
		random.Shuffle(4, func(i, j int) { d[i], d[j] = d[j], d[i] })
		for j := range d {
			unit := math.Pow(10, 40*random.Float64()-20)
			for i := range d[j] {
				d[j][i] *= unit
			}
		}
		require.Equal(t, fit.Converged, status(t, d))
	}
}

// Units change nothing but the numbers: columns and priors in units of 1e-9 to
// 1e9, some parameters known before to a millionth of what the readings tell,
// one that they do not tell at all. Tolerance: the roundings of two QRs, with
// columns at angles of a tenth at least.
func TestUnits(t *testing.T) {
	const n, seed = 12, 5
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	d := append(normal(random, n, 4), make([]float64, n))
	units := []float64{1e9, 1e-9, 1e6, 1e-6, 1e9}
	p := fit.Problem{
		Model: d, X: constant(n, 0), Y: normal(random, n, 1)[0], SigmaY: constant(n, 1),
		Priors: []fit.Prior{fit.Free(), {Mean: 2, Sigma: 1e-6}, fit.Free(), {Mean: -1, Sigma: 0.5}, {Mean: 3, Sigma: 2}},
	}
	q := p
	scaled := make(design, len(d))
	q.Model, q.Priors = scaled, nil
	for j, unit := range units {
		for _, v := range d[j] {
			scaled[j] = append(scaled[j], v/unit)
		}
		q.Priors = append(q.Priors, fit.Prior{Mean: p.Priors[j].Mean * unit, Sigma: p.Priors[j].Sigma * unit})
	}
	want := solve(t, p, make([]float64, 5), fit.LeastSquares())
	got := solve(t, q, make([]float64, 5), fit.LeastSquares())
	wantCov, gotCov := want.Covariance(), got.Covariance()
	for j, unit := range units {
		near(t, want.Beta[j:j+1], []float64{got.Beta[j] / unit}, 1e-10, 0, "parameter")
		for k := range wantCov {
			near(t, wantCov[j][k:k+1], []float64{gotCov[j][k] / unit / units[k]}, 1e-10, 1e-22, "covariance")
		}
	}
	near(t, []float64{3, 2}, []float64{want.Beta[4], math.Sqrt(wantCov[4][4])}, 1e-14, 0, "the prior alone")
}

// A start at which a parameter does nothing is no reason to give up: with the
// height of an exponential at zero its rate has no effect, there.
func TestUndeterminedOnlyAtTheStart(t *testing.T) {
	p := fit.Problem{
		Model: curve(func(b []float64, x float64, g []float64) (y, slope float64) {
			e := math.Exp(b[1] * x)
			g[0], g[1] = e, b[0]*x*e
			return b[0] * e, b[0] * b[1] * e
		}),
		X: []float64{0, 1, 2, 3}, SigmaY: constant(4, 0.1), Priors: free(2),
	}
	for _, x := range p.X {
		p.Y = append(p.Y, 3*math.Exp(-0.5*x))
	}
	near(t, []float64{3, -0.5}, solve(t, p, []float64{0, 0}, fit.LeastSquares()).Beta, 1e-12, 0, "exact readings")
}

// A steep curve with errors in x: as observed, many a good reading lies far more
// than three sigma off in y alone. None may be let go for that, and the answer
// is that of least squares.
func TestGoodReadingsAreHeard(t *testing.T) {
	const n, seed = 12, 6
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	p := fit.Problem{
		Model: curve(func(b []float64, x float64, g []float64) (y, slope float64) {
			g[0], g[1] = 1, x*x
			return b[0] + b[1]*x*x, 2 * b[1] * x
		}),
		X: make([]float64, n), Y: make([]float64, n),
		SigmaX: constant(n, 0.1), SigmaY: constant(n, 0.1), Priors: free(2),
	}
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	clean := 0
	for range 300 {
		for i := range p.X {
			at := 0.5 * float64(i-n/2)
			p.X[i], p.Y[i] = at+0.1*random.NormFloat64(), 5+4*at*at+0.1*random.NormFloat64()
		}
		best := solver.Solve([]float64{5, 4}, fit.LeastSquares())
		want, within := append([]float64{}, best.Beta...), true
		for i := range p.X {
			within = within && math.Abs(best.Standardised(i)) < 2.9
		}
		if !within {
			continue
		}
		clean++
		got := solver.Solve(want, fit.Redescending(1))
		require.Equal(t, fit.Converged, got.Status)
		near(t, want, got.Beta, 1e-9, 0, "parameters") // two searches
		for i := range p.X {
			require.Equal(t, 1.0, got.Weight(i))
		}
	}
	require.Greater(t, clean, 250)
}

// An abscissa is not moved farther from its reading than it began: on waves
// narrow against the errors in x a full step to the nearest place goes past it.
func TestAbscissaeSettle(t *testing.T) {
	const seed = 7
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	p := fit.Problem{
		Model: curve(func(b []float64, x float64, g []float64) (y, slope float64) {
			sin, cos := math.Sincos(b[0] * x)
			g[0] = x * cos
			return sin, b[0] * cos
		}),
		X: make([]float64, 1), Y: make([]float64, 1), SigmaX: constant(1, 0.3), SigmaY: constant(1, 0.1),
		Priors: []fit.Prior{fit.Held(8)},
	}
	solver, err := fit.NewSolver(p)
	require.NoError(t, err)
	cost := losses[2].cost // of Redescending(1.5)
	for range 3000 {
		p.X[0], p.Y[0] = 3*random.Float64(), 2*random.Float64()-1
		began := cost(math.Abs(p.Y[0]-math.Sin(8*p.X[0])) / 0.1)
		require.LessOrEqual(t, solver.Solve([]float64{8}, fit.Redescending(1.5)).Cost, began*(1+1e-13)) // roundings
	}
}
