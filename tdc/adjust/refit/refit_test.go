package refit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/adjust/adjusttest"
	"evendrop/tdc/adjust/curve"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
)

func solved(t *testing.T, setup evidence.Setup, read []evidence.Reading) *solve.Solved {
	t.Helper()
	crank, assumed, first := adjusttest.Opened(t, setup, read)
	a, err := solve.Readings(setup, crank, assumed, read, nil, first)
	require.NoError(t, err)
	return a
}

// slippedJob is the lopsided job with the protractor moved by an angle, or the gauge by a
// depth, after so many readings.
func slippedJob(t *testing.T, after int, angle geometry.Angle, depth geometry.Length) *solve.Solved {
	t.Helper()
	setup, read := adjusttest.Lopsided(t)
	for i := after; i < len(read); i++ {
		read[i].Angle += angle
		read[i].Depth += depth
	}
	return solved(t, setup, read)
}

// refits is as the job stands, by instruments as stated.
func refits(a *solve.Solved) *Solver { return New(a, a.Setup.Protractor.Step, 1) }

// A step that was made is found: its size, TDC since, and TDC before, which the
// protractor shows by the step elsewhere. The job's jitter is 0.004 mm.
func TestRefitFindsTheStep(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	plain := a.Centre + a.Best.Beta[curve.TDC]
	by := 2 * geometry.Degree
	a = slippedJob(t, 5, by, 0)
	found := refits(a).Solve(Assumption{Part: curve.Protractor, After: 5})
	require.True(t, found.Settled)
	require.InDelta(t, float64(by), found.Step, 2*found.StepSigma)
	require.InDelta(t, plain+float64(by), a.Centre+found.End.At, 2*found.StepSigma)
	require.InDelta(t, found.Step, found.End.At-found.Before.At, 1e-12)

	a = slippedJob(t, 8, 0, 0.2)
	bumped := refits(a).Solve(Assumption{Part: curve.GaugeZero, After: 8})
	require.InDelta(t, 0.2, bumped.Step, 2*bumped.StepSigma)
	require.Equal(t, bumped.End, bumped.Before, "TDC is where it was")
}

// The parts of TDC's uncertainty are those of an adjustment whose steps were free: by
// its covariance, and by the readings and the priors moved one by one.
func TestRefitIsAnAdjustment(t *testing.T) {
	a := slippedJob(t, 8, geometry.Degree, 0)
	as := Assumption{Part: curve.Protractor, After: 8}
	r := refits(a)
	found := r.Solve(as)
	whole, ok := r.Refitted(as, found)
	require.True(t, ok)
	p := whole.OwnParts()
	require.InDelta(t, whole.Best.Beta[curve.TDC], found.End.At, 1e-4*math.Sqrt(whole.Cov[curve.TDC][curve.TDC])+1e-6)
	require.InEpsilon(t, math.Sqrt(whole.Cov[curve.TDC][curve.TDC]-p.Priors()), found.End.Read, 0.01)
	require.InEpsilon(t, math.Sqrt(p.Priors()), math.Hypot(found.End.Range, found.End.Ranges), 0.01)
	before := whole.Cov[curve.TDC][curve.TDC] - 2*whole.Cov[curve.TDC][curve.Step] + whole.Cov[curve.Step][curve.Step]
	require.InEpsilon(t, math.Sqrt(before), math.Hypot(found.Before.Read, math.Hypot(found.Before.Range, found.Before.Ranges)), 0.01)
	// its influence is the derivative: a reading taken before the step has one too
	in := whole.Influence(curve.TDC)
	const little = 1e-5
	moved := *a
	moved.Angle = append([]float64(nil), a.Angle...)
	moved.Angle[2] += little
	again := refits(&moved).Solve(as)
	require.InDelta(t, in.Angle[2], (again.End.At-found.End.At)/little, 0.02)
}

// Steps that change little are to first order what a refit makes of them.
func TestFirstOrderIsTheRefit(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	r := refits(a)
	nothing := r.Solve(Assumption{})
	for _, part := range []curve.Part{curve.Protractor, curve.GaugeZero} {
		for k := 2; k <= len(read)-2; k++ {
			as := Assumption{Part: part, After: k}
			quick, ok := r.FirstOrder(as, nothing)
			full := r.Solve(as)
			require.True(t, ok)
			require.InDelta(t, full.Cost, quick.Cost, 0.02)
			require.InDelta(t, full.LnRoom, quick.LnRoom, 0.05)
			require.InDelta(t, full.End.At, quick.End.At, 0.03*full.End.Read)
			require.InEpsilon(t, full.End.Read, quick.End.Read, 0.05)
			require.InDelta(t, full.Before.At, quick.Before.At, 0.03*full.Before.Read)
			require.InEpsilon(t, full.StepSigma, quick.StepSigma, 0.05)
			require.GreaterOrEqual(t, quick.ChiSquare, 0.0)
		}
	}
	_, ok := r.FirstOrder(Assumption{Part: curve.Protractor, After: 8, Lash: 0.25}, nothing)
	require.False(t, ok, "another engine is another problem")
	slipped := slippedJob(t, 8, 2*geometry.Degree, 0)
	far := refits(slipped)
	_, ok = far.FirstOrder(Assumption{Part: curve.Protractor, After: 8}, far.Solve(Assumption{}))
	require.False(t, ok, "a step that gains much is refitted")
	little := refits(slippedJob(t, 8, 0.35*geometry.Degree, 0))
	require.False(t, little.far)
	nothing = little.Solve(Assumption{})
	_, ok = little.FirstOrder(Assumption{Part: curve.Protractor, After: 8}, nothing)
	require.False(t, ok, "be it near")
	_, ok = little.FirstOrder(Assumption{Part: curve.GaugeZero, After: 2}, nothing)
	require.True(t, ok)
}

// Where the lash may be anything the piston hangs as far as it is found to, wherever the
// search began; else as was stated.
func TestRefitHangsInItsLash(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	for i, r := range read {
		up := geometry.Length(0.15)
		if float64((r.Angle-3*geometry.Degree).Signed())*float64(r.Turn) > 0 {
			up = -up
		}
		read[i].Depth += up // 0.3 mm of lash more
	}
	r := refits(solved(t, setup, read))
	for _, from := range []float64{0, 0.22, 0.6} {
		found := r.Solve(Assumption{Lash: 0.25, LashFrom: from})
		require.InDelta(t, 0.34, found.FoundLash, 0.05)
		require.True(t, found.hang.About(found.FoundLash), "%v %v", found.hang, found.FoundLash)
	}
	require.Equal(t, r.a.Model.Hang, r.Solve(Assumption{}).hang)
}

// What a step gains of chi-square, by the screen, is greatest where it was made.
func TestScreenPointsToTheStep(t *testing.T) {
	for _, after := range []int{3, 5, 8, 10} {
		a := slippedJob(t, after, 0.6*geometry.Degree, 0)
		s, ok := newScreen(a, true)
		require.True(t, ok)
		best := 2
		for k := 2; k <= 10; k++ {
			if s.Gain(curve.Protractor, k) > s.Gain(curve.Protractor, best) {
				best = k
			}
		}
		require.Equal(t, after, best)
		r := refits(a)
		fall := r.Solve(Assumption{}).Cost - r.Solve(Assumption{Part: curve.Protractor, After: after}).Cost
		require.InEpsilon(t, fall, s.Gain(curve.Protractor, after), 0.2, "to first order")
	}
}

// A run whose turn was written wrongly fits again with it the other way.
func TestRefitTurns(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	setup.Protractor.Step, setup.Protractor.Error = 0.01*geometry.Degree, 0.01*geometry.Degree
	right := refits(solved(t, setup, read)).Solve(Assumption{})
	for i := 8; i < len(read); i++ {
		read[i].Turn = -read[i].Turn
	}
	a := solved(t, setup, read)
	r := refits(a)
	again := r.Solve(Assumption{From: 8, To: 12})
	require.InDelta(t, right.Cost, again.Cost, 0.05)
	require.Greater(t, r.Solve(Assumption{}).Cost, again.Cost+5)
	require.Equal(t, evidence.TurnDirection(a.Model.Turn[9]), read[9].Turn, "the adjustment itself is left alone")
}

// Refitting allocates nothing.
func TestRefitsAllocateNothing(t *testing.T) {
	a := slippedJob(t, 8, geometry.Degree, 0)
	r := refits(a)
	for _, as := range []Assumption{{}, {Part: curve.Protractor, After: 5}, {Part: curve.GaugeZero, After: 9, Lash: 0.25, LashFrom: 0.2}, {Lash: 0.25}, {Lash: 0.25, Wheel: 0.01, Scale: 0.3}, {From: 8, To: 12}} {
		r.Solve(as)
		require.Zero(t, testing.AllocsPerRun(20, func() { r.Solve(as) }), as)
	}
}
