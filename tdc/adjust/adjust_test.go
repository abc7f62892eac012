package adjust

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/adjust/adjusttest"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

func solved(t *testing.T, setup evidence.Setup, read []evidence.Reading) *Adjustment {
	t.Helper()
	crank, assumed, first := adjusttest.Opened(t, setup, read)
	a, err := solve.Readings(setup, crank, assumed, read, nil, first)
	require.NoError(t, err)
	return &Adjustment{Solved: a}
}

// The same of equal drop, which knows no priors.
func TestEqualDropInfluenceIsTheDerivative(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	equal := func(read []evidence.Reading) float64 {
		a := solved(t, setup, read)
		_, beside, ok := a.EqualDrop(a.Flanks())
		require.True(t, ok)
		return float64(beside.Angle)
	}
	a := solved(t, setup, read)
	in, _, ok := a.EqualDrop(a.Flanks())
	require.True(t, ok)
	for i := range read {
		const d = 1e-5
		moved := append([]evidence.Reading{}, read...)
		moved[i].Depth += d
		up := equal(moved)
		moved[i].Depth -= 2 * d
		down := equal(moved)
		// the levels' weights and the bend between readings follow too: of second order
		require.InDelta(t, (up-down)/(2*d), in.Depth[i], 0.0015+0.1*math.Abs(in.Depth[i]), "depth %d", i)
	}
}

// Where the gauge is perfect all of what the readings leave is the angles', and
// where the protractor is, all of it is the depths'.
func TestBudgetShares(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	fine := setup
	fine.Gauge.Step, fine.Gauge.Error = 1e-6, 1e-6
	p := solved(t, fine, read).OwnParts()
	require.Greater(t, p.Angle, 1e4*p.Depth)
	fine = setup
	fine.Protractor.Step, fine.Protractor.Error = 1e-9, 1e-9
	p = solved(t, fine, read).OwnParts()
	require.Greater(t, p.Depth, 1e4*p.Angle)
	// and both together are what the covariance says
	a := solved(t, setup, read)
	p = a.OwnParts()
	require.InEpsilon(t, a.Cov[curve.TDC][curve.TDC], p.Angle+p.Fresh+p.Depth+p.Priors(), 1e-9)
	in := a.Parts(a.Influence(curve.TDC))
	require.InEpsilon(t, p.Angle, in.Angle, 1e-6)
}

// A fit that did not settle, readings that scatter beyond reason and an interval wider
// than ten degrees are no answers, and it is said which of the three it is.
func TestCannotTell(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	sure := 9.9 * geometry.Degree
	require.Nil(t, a.CannotTell(sure))
	require.Equal(t, finding.TooVague{Expanded: 10.1 * geometry.Degree}, a.CannotTell(10.1*geometry.Degree))
	for _, status := range []fit.Status{fit.Stalled, fit.OutOfSteps, fit.NotANumber} {
		s := *a.Solved
		s.Best.Status = status
		b := Adjustment{Solved: &s}
		require.Equal(t, finding.NotSettled{Status: status.String()}, b.CannotTell(sure))
	}

	// a gauge said to be good to 0.02 mm that is wrong by millimetres each time
	for i := range read {
		read[i].Depth += geometry.Length(4 * math.Sin(float64(40*i*i)))
	}
	require.IsType(t, finding.BeyondReason{}, solved(t, setup, read).CannotTell(sure))
}

// A fit that did not settle is no answer, however narrow its interval.
func TestUnsettledIsNoAnswer(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	require.Nil(t, a.CannotTell(geometry.Degree))
	a.Best.Status = fit.Converged + 1
	require.Equal(t, finding.NotSettled{Status: a.Best.Status.String()}, a.CannotTell(geometry.Degree))
}
