package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// decay is y = b0 (1 - exp(-b1 x)).
type decay struct{}

func (decay) Evaluate(beta, x, y, slope []float64, jac [][]float64) {
	for i := range x {
		e := math.Exp(-beta[1] * x[i])
		y[i], slope[i] = beta[0]*(1-e), beta[0]*beta[1]*e
		jac[0][i], jac[1][i] = 1-e, beta[0]*x[i]*e
	}
}

// lookedAt is a solver that has linearised the curve at a start.
func lookedAt(t *testing.T, sigmaX []float64, start ...float64) (*Solver, descent) {
	t.Helper()
	s, err := NewSolver(Problem{
		Model: decay{}, X: []float64{1, 2, 3, 5, 7}, Y: []float64{109, 149, 149, 191, 213}, SigmaX: sigmaX,
		SigmaY: []float64{1, 1, 1, 1, 1}, Priors: []Prior{Free(), Free()},
	})
	require.NoError(t, err)
	require.True(t, s.place(start))
	var d descent
	s.look(&d)
	return s, d
}

// A first step that would go far stays within one length of the parameters, and ends
// at its border; from parameters that are all zero none is too far.
func TestFirstStepStaysNear(t *testing.T) {
	for _, sigmaX := range [][]float64{nil, {0.3, 0.1, 0.5, 0, 0.2}} {
		s, d := lookedAt(t, sigmaX, 1, 1)
		s.damped(0)
		require.Greater(t, s.length, 10*d.radius, "it would go far")
		s.aim(&d.region, d.least)
		require.InEpsilon(t, d.radius, s.length, slack-1)
		require.InEpsilon(t, math.Hypot(s.norm[0], s.norm[1]), d.radius, 1e-12, "both parameters are 1")
	}
	_, d := lookedAt(t, nil, 0, 0)
	require.True(t, math.IsInf(d.radius, 1))
}

// How great a column was in a place left behind says nothing of roundings here.
func TestReachIsNoRounding(t *testing.T) {
	s, _ := lookedAt(t, nil, 200, 0.5)
	require.False(t, s.atRounding(1))
	s.reach[0] *= 1e20
	require.False(t, s.atRounding(1))
}

// The damping of a step that gained less than foreseen is held; gains as foreseen let go
// of it by tens. A step too short for a region to matter is not damped for all that.
func TestDampingIsHeld(t *testing.T) {
	s, d := lookedAt(t, nil, 200, 0.5)
	const far = 1e9 // a length that leaves the radius out of it
	d.lambda, d.radius = 0.3, far
	d.judge(5, 10, far)
	s.aim(&d.region, d.least)
	require.Equal(t, 0.3, d.lambda, "held")
	for tens := 1; tens <= 7; tens++ {
		d.judge(10, 10, far)
		s.aim(&d.region, d.least)
		require.InEpsilon(t, 0.3*math.Pow10(-tens), d.lambda, 1e-12)
	}
	d.judge(10, 10, far)
	require.Zero(t, d.hold)
	d.hold = 0.3
	s.now.cost = 1e30 // the objective's own digits are greater than the step
	s.aim(&d.region, d.least)
	require.Zero(t, d.lambda)
}

// The region shrinks to where the parabola through what was gained is lowest, to a
// tenth at least, and is twice the step where the gain was as foreseen.
func TestRegionFollowsTheGain(t *testing.T) {
	for _, c := range []struct{ gain, radius float64 }{
		{10, 4}, {7.5, 4}, {7, 3}, {2.5, 1}, {0, 1}, {-10, 2. / 3}, {-1e9, 0.2}, {math.Inf(-1), 0.2},
	} {
		r := region{radius: 3}
		if c.gain <= 2.5 {
			r.radius = 2
		}
		r.judge(c.gain, 10, 2)
		require.InDelta(t, c.radius, r.radius, 1e-12, "gain %v", c.gain)
	}
}
