package solve

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
	"evendrop/tdc/adjust/adjusttest"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/evidence"
)

func solved(t *testing.T, setup evidence.Setup, read []evidence.Reading) *Solved {
	t.Helper()
	crank, assumed, first := adjusttest.Opened(t, setup, read)
	a, err := Readings(setup, crank, assumed, read, nil, first)
	require.NoError(t, err)
	return a
}

func (a *Solved) tdcAngle() float64 { return a.Centre + a.Best.Beta[curve.TDC] }

// How TDC answers to each angle and depth is what solving again with that reading
// moved a little says; and to each prior, what a little other prior does.
func TestInfluenceIsTheDerivative(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	in := a.Influence(curve.TDC)
	const d = 1e-4 // of mm and rad: its square is far below the digits asked for
	for i := range read {
		moved := append([]evidence.Reading{}, read...)
		moved[i].Depth += d
		up := solved(t, setup, moved).tdcAngle()
		moved[i].Depth -= 2 * d
		down := solved(t, setup, moved).tdcAngle()
		require.InDelta(t, (up-down)/(2*d), in.Depth[i], 2e-5, "depth %d", i) // TDC moves 1e-3 to 1e-2 rad/mm
		moved[i] = read[i]
		moved[i].Angle += d
		up = solved(t, setup, moved).tdcAngle()
		moved[i].Angle -= 2 * d
		down = solved(t, setup, moved).tdcAngle()
		require.InDelta(t, (up-down)/(2*d), in.Angle[i], 1e-3, "angle %d", i) // of about 0.1 rad/rad
	}
	for parameter, move := range map[int]func(*evidence.Setup, float64){
		curve.Lash:   func(s *evidence.Setup, by float64) { s.Gauge.Lash += geometry.Length(by) },
		curve.Offset: func(s *evidence.Setup, by float64) { s.Engine.BoreOffset += geometry.Length(by) },
	} {
		plus, minus := setup, setup
		move(&plus, 1e-3)
		move(&minus, -1e-3)
		moved := (solved(t, plus, read).tdcAngle() - solved(t, minus, read).tdcAngle()) / 2e-3
		// a true value above the prior's mean is as the mean below the true value
		// to first order: what bends with the residuals, a hundredth here, is left out
		require.InEpsilon(t, moved, -in.Truth[parameter], 0.02)
	}
}

// What a doubtful stroke or rod does to the curve near TDC, r (1 + r/l), by its
// difference.
func TestScaleUncertainty(t *testing.T) {
	sharp := func(stroke, rod float64) float64 { return stroke / 2 * (1 + stroke/2/rod) }
	for _, c := range []struct{ stroke, rod float64 }{{1, 0}, {0, 4}, {0.5, 2}} {
		setup := evidence.Setup{Engine: evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.KnownTo{
			Stroke: geometry.Length(c.stroke), Rod: geometry.Length(c.rod)}}}
		crank, err := setup.Engine.SliderCrank()
		require.NoError(t, err)
		byStroke := (sharp(86+c.stroke/2, 146) - sharp(86-c.stroke/2, 146)) / sharp(86, 146)
		byRod := (sharp(86, 146+c.rod/2) - sharp(86, 146-c.rod/2)) / sharp(86, 146)
		require.InEpsilon(t, math.Hypot(byStroke, byRod)/math.Sqrt(3), scaleUncertainty(setup, crank, evidence.Assumed{}), 1e-3)
	}
	require.True(t, math.IsInf(scaleUncertainty(evidence.Setup{}, geometry.SliderCrank{}, evidence.Assumed{Stroke: 86}), 1))
}

// Scatter beyond the instruments widens by Birge's ratio over what the readings
// left free, and Student's t; scatter within them changes nothing.
func TestBirge(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	calm := solved(t, setup, read)
	require.Equal(t, 1., calm.Widening.Factor)
	wild := setup
	wild.Gauge.Step, wild.Gauge.Error = 0.001, 0.001
	wild.Protractor.Step, wild.Protractor.Error = 0.0001, 0.0001
	a := solved(t, wild, read)
	require.Greater(t, a.Widening.Factor, 1.)
	// Of twelve readings the adjustment took TDC, zero and lash, and most of scale
	// and offset.
	require.Greater(t, a.Widening.Degrees, 12-7.)
	require.Less(t, a.Widening.Degrees, 12-3.)
	chiSquare := 0.0
	for i := range read {
		e, sigma := a.Best.Residual(i)
		chiSquare += e * e / sigma / sigma
	}
	require.InEpsilon(t, math.Sqrt(chiSquare/a.Widening.Degrees), a.Widening.Factor, 1e-9)
}

// Scatter that chance makes in fewer than three jobs in ten widens the answer, and is
// spoken of where chance makes it in fewer than one in a hundred. (Chi-square's upper
// quantiles, from memory of any table: of 5 degrees 6.06 at 0.3 and 15.09 at 0.01.)
func TestScatterWidensBeforeItIsSpokenOf(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	seen := map[[2]bool]bool{}
	for size := 1.; size < 8; size += 0.05 { // of the gauge's uncertainty
		scattered := slices.Clone(read)
		for i := range scattered {
			scattered[i].Depth += setup.Gauge.Uncertainty() * geometry.Length(size*math.Sin(float64(40*i*i)))
		}
		a := solved(t, setup, scattered)
		chiSquare, degrees := 0.0, 0.0
		for i := range scattered {
			if !a.Suspect[i] {
				e, sigma := a.Best.Residual(i)
				chiSquare += e * e / sigma / sigma
				degrees += 1 - a.Best.Leverage(i, a.Cov)
			}
		}
		chance := distuv.ChiSquared{K: degrees}.Survival(chiSquare)
		widened, told := chance < 0.3, chance < 0.01
		require.Equal(t, widened, !math.IsInf(a.Widening.Degrees, 1), "chance %v", chance)
		require.Equal(t, told, a.Widening.Told, "chance %v", chance)
		seen[[2]bool{widened, told}] = true
	}
	require.Len(t, seen, 3)
	require.InDelta(t, 0.3, distuv.ChiSquared{K: 5}.Survival(6.06), 0.001)
	require.InDelta(t, 0.01, distuv.ChiSquared{K: 5}.Survival(15.09), 0.0001)
}

// The median absolute value of a normal sample tells its standard deviation.
func TestToSigma(t *testing.T) {
	require.InDelta(t, 1, toSigma*0.6744897501960817, 1e-12) // the normal's upper quartile
}

// An estimate less itself rests on nothing.
func TestInfluencesAdd(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	in := a.Influence(curve.TDC)
	p := a.Parts(in.Add(-1, in))
	require.Zero(t, p.Read()+p.Priors())
	q := a.Parts(in.Add(1, in))
	require.InEpsilon(t, 4*a.Parts(in).Priors(), q.Priors(), 1e-12)
}

// A reading is named from four scatters on, and not before.
func TestSuspectFromFour(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	for _, c := range []struct {
		sigmas float64
		named  bool
	}{{2.5, false}, {6.5, true}} {
		moved := append([]evidence.Reading{}, read...)
		a := solved(t, setup, moved)
		_, sigma := a.Best.Residual(6)
		moved[6].Depth += geometry.Length(c.sigmas * sigma)
		require.Equal(t, c.named, solved(t, setup, moved).Suspect[6], "%v", c.sigmas)
	}
}

// The answer does not depend on where the adjustment starts.
func TestAnyStart(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	read[3].Depth += 0.4 // with a bad reading as well
	a := solved(t, setup, read)
	want, u := a.Best.Beta[curve.TDC], math.Sqrt(a.Cov[curve.TDC][curve.TDC])
	for _, by := range []struct{ tdc, zero, scale, lash float64 }{
		{0.05, 0, 0, 0}, {-0.05, 0, 0, 0}, {0, 2, 0, 0}, {0, -2, 0, 0.1}, {0, 0, 0.3, 0}, {0.04, 1, -0.2, -0.05},
	} {
		start := append([]float64(nil), a.Best.Beta...)
		start[curve.TDC] += by.tdc
		start[curve.Zero] += by.zero
		start[curve.Scale] += by.scale
		start[curve.Lash] += by.lash
		a.solve(start)
		require.InDelta(t, want, a.Best.Beta[curve.TDC], 1e-6*u, "%+v", by) // the solver stops at 1e-10 of u, a few rounds apart
		require.True(t, a.Suspect[3])
	}
}

// counted is a curve that counts how often it is asked for.
type counted struct {
	*curve.Model
	asked int
}

func (c *counted) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	c.asked++
	c.Model.Evaluate(beta, x, y, slope, jac)
}

// A search that ran out of steps is not begun again with another scatter, nor weighed against
// another that did: one by a loss for the start, one from there, one from another start.
func TestLostIsNotSearchedAgain(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	rng := rand.New(rand.NewPCG(1, 5))
	for i := range read {
		read[i].Depth += geometry.Length(4*rng.Float64() - 2) // of no piston
	}
	a := solved(t, setup, read)
	c := &counted{Model: &a.Model}
	a.Solver.Model, a.Solver.MaxSteps = c, 1
	start := slices.Clone(a.Best.Beta)
	start[curve.TDC] += 0.3
	a.solve(start)
	require.True(t, a.lost())
	// the start, where it is nearest the readings, and the one step of each
	require.LessOrEqual(t, c.asked, 3*4)
}
