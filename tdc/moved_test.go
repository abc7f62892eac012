package tdc_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/slip"
)

// petrolFour is an invented engine of known offset with a dial and a wheel of a half.
func petrolFour() evidence.Setup {
	return evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: benchtest.Protractor(0.5, 0.25), Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
}

// sessionOf is a session of 24 readings on a bench of its own, and TDC at its end.
func sessionOf(sweeps int, slips ...benchtest.Slip) (read []evidence.Reading, atEnd geometry.Angle) {
	rng := rand.New(rand.NewPCG(4, 5))
	setup := petrolFour()
	b := benchtest.Drawn(rng, setup)
	s := benchtest.Session{Setup: setup, Layout: benchtest.Balanced(sweeps, 24), Slips: slips}
	read = b.ReadIn(rng, s)
	for i := range read {
		read[i].File = "r.csv"
	}
	return read, geometry.Angle(b.TrueAtEnd(s))
}

// A protractor that moved at the turn-back is said first, with its place; TDC is what
// holds since, what held before is given beside it, and equal drop is left out. A
// cylinder read on unmoved instruments says nothing of it.
func TestProtractorMoved(t *testing.T) {
	still, _ := sessionOf(2)
	healthy := find(t, petrolFour(), still)
	require.Nil(t, healthy.Slip)
	require.False(t, has[finding.OneWayOnly](healthy))
	require.Len(t, healthy.Methods, 2)
	require.Less(t, healthy.Moved, 0.3)

	read, atEnd := sessionOf(2, benchtest.Slip{After: 12, Angle: -1.5})
	r := find(t, petrolFour(), read)
	moved, first := r.Findings[0].(finding.ProtractorMoved)
	require.True(t, first)
	require.Equal(t, 12, moved.After)
	require.Equal(t, finding.At(read[11]), moved.Place)
	require.InDelta(t, -1.5, moved.By.Degrees(), moved.Expanded.Degrees())
	require.Equal(t, r.Moved, moved.Probability)
	require.Equal(t, 12, r.MovedAfter())
	require.Nil(t, r.CannotTell)
	require.Nil(t, r.Agreement)
	require.Len(t, r.Methods, 1)
	off := func(e gum.Estimate, truth geometry.Angle) float64 { return (e.Angle - truth).Signed().Degrees() }
	require.InDelta(t, 0, off(r.TDC, atEnd), r.TDC.Expanded.Degrees())
	require.InDelta(t, 0, off(r.Slip.Before, atEnd+degrees(1.5)), r.Slip.Before.Expanded.Degrees())
	// a place is where it is by the scale that holds since
	seen := r.After([]geometry.Angle{atEnd + degrees(10)})
	require.InDelta(t, 10, seen.Angle.Degrees(), geometry.Angle(seen.Spread().Expanded()).Degrees())
	for _, j := range r.Readings {
		require.False(t, j.Suspect)
	}
}

// A gauge that moved is said as its own numbers go, whichever way they grow; TDC is
// where it was, so marks need not be read again.
func TestGaugeMoved(t *testing.T) {
	for _, counts := range []evidence.Count{evidence.Down, evidence.Up} {
		read, atEnd := sessionOf(2, benchtest.Slip{After: 12, Depth: 0.2})
		setup := petrolFour()
		setup.Gauge.Counts = counts
		r := find(t, setup, read) // depths grow downward here; Counts is how they are shown
		moved := all[finding.GaugeMoved](r)
		require.Len(t, moved, 1)
		require.InDelta(t, float64(setup.Gauge.Falling(0.2)), float64(moved[0].By), float64(moved[0].Expanded))
		require.InDelta(t, float64(moved[0].By), r.Slip.Size, 1e-12)
		require.Equal(t, slip.GaugeZero, r.Slip.Kind)
		require.Zero(t, r.MovedAfter())
		require.InDelta(t, 0, (r.TDC.Angle - atEnd).Signed().Degrees(), r.TDC.Expanded.Degrees())
		require.InDelta(t, 0, (r.TDC.Angle - r.Slip.Before.Angle).Signed().Degrees(), 0.05)
	}
}

// Where a pointer that slipped by a degree in the middle of a flank is taken for something else,
// what it was is told beside it more often than not; where it slipped at the turn-back nothing
// else is told (simulated).
func TestMovedInstead(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 18))
	const jobs, readings = 120, 18
	wrong, second, needless := 0, 0, 0
	for i := range jobs {
		after := readings / 2
		if i%2 == 0 {
			after = []int{5, 6, 7, 11, 12, 13}[rng.IntN(6)]
		}
		setup := petrolFour()
		read := benchtest.Drawn(rng, setup).ReadIn(rng, benchtest.Session{Setup: setup, Layout: benchtest.Balanced(2, readings), Slips: []benchtest.Slip{{After: after, Angle: 1}}})
		r := find(t, setup, read)
		is := func(s *slip.Slip) bool { return s.Kind == slip.Protractor && s.After >= after-2 && s.After <= after+2 }
		switch {
		case r.Slip == nil:
		case !is(r.Slip):
			wrong++
			if r.Slip.Or != nil && is(r.Slip.Or) {
				second++
				require.Equal(t, r.Slip.Or.After, momentOf(r.Findings[0]).Or.After)
			}
		case r.Slip.Or != nil && i%2 == 1:
			needless++
		}
	}
	t.Logf("of %d jobs %d were named wrongly, %d of them rightly in the second place; %d of %d at the turn-back had a needless second", jobs, wrong, second, needless, jobs/2)
	require.Positive(t, wrong, "else nothing is tested")
	require.Greater(t, 2*second, wrong)
	require.LessOrEqual(t, needless, jobs/2/20, "1 in 20 at most")
}

// momentOf is when a finding has something moved.
func momentOf(f finding.Finding) finding.Moment {
	switch f := f.(type) {
	case finding.ProtractorMoved:
		return f.Moment
	case finding.GaugeMoved:
		return f.Moment
	}
	return finding.Moment{}
}

// What may have moved instead is counted on from earlier sets as the move itself is, and a gauge
// that counts up has its numbers' sign.
func TestMovedInsteadInALaterSet(t *testing.T) {
	m := finding.Moment{After: 8, Or: &finding.Instead{Part: "turn", After: 12, To: 18}}
	later := m.From(10)
	require.Equal(t, finding.Moment{After: 18, Or: &finding.Instead{Part: "turn", After: 22, To: 28}}, later)
	require.Equal(t, 12, m.Or.After, "the first is left as it was")
	require.Nil(t, finding.Moment{}.From(3).Or)
	require.Zero(t, (&finding.Instead{After: 2}).From(3).To)
}

// Turned one way that something moved between the flanks cannot be seen, which is said;
// where it is seen, TDC is not told.
func TestMovedOneWay(t *testing.T) {
	read, _ := sessionOf(1)
	r := find(t, petrolFour(), read)
	require.Nil(t, r.CannotTell)
	require.True(t, has[finding.OneWayOnly](r))
	read, _ = sessionOf(1, benchtest.Slip{After: 5, Angle: 3})
	r = find(t, petrolFour(), read)
	untold, is := r.CannotTell.(finding.MovedOneWay) // by which of the two, one flank hardly tells
	require.True(t, is)
	require.Equal(t, 5, untold.After)
	require.Len(t, r.Findings, 2)
	require.Equal(t, r.CannotTell, r.Findings[0])
	require.False(t, has[finding.OneWayOnly](r))
}

// Worn bearings are no move: their lash is told beside what was stated, and TDC is right.
func TestWornBearings(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 5))
	setup := petrolFour()
	b := benchtest.Drawn(rng, setup)
	b.Lash = 0.4
	b = b.Settled()
	r := find(t, setup, b.Read(rng, setup, benchtest.Balanced(2, 24), benchtest.Noise{}))
	require.Nil(t, r.Slip)
	beyond := all[finding.LashBeyond](r)
	require.Len(t, beyond, 1)
	require.InDelta(t, 0.4, float64(beyond[0].Lash), float64(beyond[0].Expanded))
	require.Equal(t, setup.Gauge.Lash, beyond[0].Stated)
	require.InDelta(t, 0, (r.TDC.Angle - geometry.Angle(b.Truth())).Signed().Degrees(), r.TDC.Expanded.Degrees())
}

// What may have moved is a part of the budget, and of every place measured from TDC.
func TestBudgetHoldsWhatMayHaveMoved(t *testing.T) {
	read, _ := sessionOf(2)
	r := find(t, petrolFour(), read)
	square, moved := 0.0, 0.0
	for _, c := range r.Budget {
		square += float64(c.Angle * c.Angle)
		if c.Source == adjust.MovedSource {
			moved = float64(c.Angle)
		}
	}
	require.Positive(t, moved)
	require.InEpsilon(t, float64(r.TDC.Uncertainty*r.TDC.Uncertainty), square, 1e-9)
	require.Greater(t, r.TDC.Uncertainty, alone(r).Uncertainty)
	a, b := r.After([]geometry.Angle{r.TDC.Angle}), r.After([]geometry.Angle{r.TDC.Angle})
	require.Greater(t, a.Covariance(b), moved*moved, "marks share it")
	require.InDelta(t, 0, a.Angle.Degrees(), 1e-9, "a mark at TDC stands at nought, wherever the curve has it")
}

// Of throws the ones read since the protractor moved are of another scale.
func TestPairsOnEitherSideOfAMove(t *testing.T) {
	read, atEnd := sessionOf(2, benchtest.Slip{After: 12, Angle: 2})
	for _, at := range []geometry.Angle{atEnd, atEnd - degrees(2)} { // stops taken after, and before
		r, err := tdc.Find(petrolFour(), evidence.Cylinder{Number: 1, Readings: read, Stops: []evidence.Stop{
			{Rising: at - degrees(20), Falling: at + degrees(20)}, {Rising: at - degrees(20.5), Falling: at + degrees(20.5)},
		}})
		require.NoError(t, err)
		require.NotNil(t, r.Slip)
		require.False(t, has[finding.PairMisfit](r), "the stops fit when they were taken")
		require.InDelta(t, 2, geometry.Angle(r.Slip.Size).Degrees(), 0.6)
		require.InDelta(t, 0, (r.TDC.Angle - atEnd).Signed().Degrees(), r.TDC.Expanded.Degrees())
	}
}

// Dwells that disagree as they do when seen before the move are said to be such; others not.
func TestDwellsSeenBeforeAMove(t *testing.T) {
	read, atEnd := sessionOf(2, benchtest.Slip{After: 12, Angle: 2})
	for off, before := range map[float64]bool{-2: true, 1.2: false} {
		at := atEnd + degrees(off)
		r, err := tdc.Find(petrolFour(), evidence.Cylinder{Number: 1, Readings: read, Dwell: []evidence.DwellPair{
			{Still: at - degrees(5), Moves: at + degrees(7), Turn: evidence.Forward}, {Still: at - degrees(5.5), Moves: at + degrees(7), Turn: evidence.Forward},
			{Still: at + degrees(5), Moves: at - degrees(7), Turn: evidence.Backward}, {Still: at + degrees(5), Moves: at - degrees(7.5), Turn: evidence.Backward},
		}})
		require.NoError(t, err)
		require.NotNil(t, r.Slip, "%g", off)
		apart := false
		for _, f := range r.Findings {
			if m, is := f.(finding.MethodApart); is {
				apart = true
				require.Equal(t, before, m.Moved, "%g: %+v", off, m)
			}
		}
		require.True(t, apart, "%g: %v", off, r.Findings)
	}
}

// In a later set what moved is counted over the cylinder's readings, as a notebook numbers
// them, and TDC of the earlier set is left alone.
func TestMovedInALaterSet(t *testing.T) {
	first, _ := sessionOf(2)
	second, atEnd := sessionOf(2, benchtest.Slip{After: 12, Angle: -1.5})
	for i := range second {
		second[i].Set = 2
		second[i].Angle += degrees(90)
	}
	r := find(t, petrolFour(), append(first, second...))
	require.Equal(t, 24+12, all[finding.ProtractorMoved](r)[0].After)
	require.Equal(t, 24+12, r.MovedAfter())
	require.Equal(t, 12, r.Slip.After)
	require.Nil(t, r.Earlier[0].Slip)
	require.InDelta(t, 0, (r.TDC.Angle - atEnd - degrees(90)).Signed().Degrees(), r.TDC.Expanded.Degrees())
	require.InDelta(t, -1.5, (r.Since(3) - second[3].Angle).Degrees(), 0.5)
	require.Equal(t, second[20].Angle, r.Since(20))
}
