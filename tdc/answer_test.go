package tdc_test

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

func find(t *testing.T, setup evidence.Setup, read []evidence.Reading) tdc.Result {
	t.Helper()
	result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: read})
	require.NoError(t, err)
	return result
}

// all is the findings of one kind.
func all[F finding.Finding](r tdc.Result) (list []F) {
	for _, f := range r.Findings {
		if f, ok := f.(F); ok {
			list = append(list, f)
		}
	}
	return list
}

func has[F finding.Finding](r tdc.Result) bool { return len(all[F](r)) > 0 }

// isKind tells whether an answer, or the want of one, is for a finding of a kind.
func isKind[F finding.Finding](r tdc.Result, err error) (F, bool) {
	var refusal finding.Refusal
	if errors.As(err, &refusal) {
		f, ok := refusal.Finding.(F)
		return f, ok
	}
	f, ok := r.CannotTell.(F)
	return f, ok
}

// Without a stroke, or a rod, or either, TDC is found all the same, and said to
// rest on less.
func TestUnknownDimensions(t *testing.T) {
	for _, c := range []struct {
		stroke, rod, bore float64
		found             finding.Finding
	}{
		{0, 146, 0, finding.StrokeUnknown{}}, {86, 0, 0, finding.RodAssumed{Rod: 1.7 * 86, KnownTo: 0.4 * 86}},
		{0, 0, 79, finding.StrokeUnknown{}}, {0, 0, 0, finding.StrokeUnknown{}},
	} {
		setup := carEngine(c.stroke, c.rod)
		setup.Engine.Bore = geometry.Length(c.bore)
		r := find(t, setup, exerciseA())
		require.InDelta(t, 3.40, r.TDC.Angle.Degrees(), r.TDC.Expanded.Degrees())
		require.Contains(t, r.Findings, c.found)
		require.Len(t, r.Methods, 2)
	}
}

// An impossible engine is an error, not a number.
func TestImpossibleEngine(t *testing.T) {
	_, err := tdc.Find(carEngine(86, 40), evidence.Cylinder{Readings: exerciseA()})
	require.ErrorContains(t, err, "engine:")
}

func TestTooFew(t *testing.T) {
	_, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: exerciseA()[:2]})
	require.ErrorContains(t, err, "at least 3")
	same := exerciseA()[:6]
	for i := range same {
		same[i].Depth = 2
	}
	_, err = tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: same})
	require.ErrorContains(t, err, "depths do not change")
	r := find(t, carEngine(86, 146), append(exerciseA()[:2], exerciseA()[12:]...))
	require.Contains(t, r.Findings, finding.FewReadings{Readings: 5})
}

// An offset that nobody stated is spoken of where stating it would narrow the interval, which is
// then wider than with it stated; not where it was stated.
func TestOffsetUnstated(t *testing.T) {
	flank := clean(86, 146, 3, []float64{-80, -70, -60, -50, -40, -30, -20, -10})
	setup := carEngine(86, 146)
	setup.Engine.KnownTo.Offset = 14
	setup.Protractor.Step, setup.Protractor.Error, setup.Protractor.OffCentre = degrees(0.05), degrees(0.03), 0
	open := find(t, setup, flank)
	unstated := all[finding.OffsetUnstated](open)
	require.Len(t, unstated, 1)
	require.Equal(t, open.TDC.Expanded, unstated[0].Expanded)
	setup.Engine.KnownTo.Offset, setup.Engine.OffsetStated = evidence.DefaultKnownTo(true).Offset, true
	stated := find(t, setup, flank)
	require.False(t, has[finding.OffsetUnstated](stated))
	require.InEpsilon(t, float64(stated.TDC.Expanded), float64(unstated[0].Stated), 0.05) // to first order
	require.Greater(t, unstated[0].Expanded, unstated[0].Stated)
}

// What weakens the answer is said.
func TestWarnings(t *testing.T) {
	setup := carEngine(86, 146)
	require.Contains(t, find(t, setup, exerciseA()[:7]).Findings, finding.FlankMissing{Side: finding.Falling})
	require.Contains(t, findCylinder(t, setup, evidence.Cylinder{Readings: exerciseA()[:7], Dwell: []evidence.DwellPair{{Still: degrees(-4), Moves: degrees(12), Turn: evidence.Forward}}}).Findings,
		finding.FlankMissing{Side: finding.Falling, Pairs: 1})
	require.Contains(t, find(t, setup, exerciseA()[:10]).Findings, finding.FlankThin{Side: finding.Falling, Readings: 1})
	lopsided := append(exerciseA()[:6], exerciseA()[9:12]...)
	require.True(t, has[finding.FlanksLopsided](find(t, setup, lopsided)))
	dwell := exerciseA()[6:9]
	require.True(t, has[finding.AllShallow](find(t, setup, dwell)))
	stretched := exerciseA()
	for i := range stretched {
		stretched[i].Depth *= 1.3
	}
	require.InDelta(t, 1.3, all[finding.ScaleOff](find(t, setup, stretched))[0].Scale, 0.05) // what was known of the scale before draws it back
	require.Equal(t, []finding.Finding{finding.OneWayOnly{}}, find(t, setup, exerciseA()).Findings)
}

// Exercise B, a diesel four of S = 92, L = 144 with TDC at 357.2 and 0.05 mm of
// lash, computed to 0.1 deg and read both ways at like drops: the two ways average
// to TDC, and what parts them is the lash.
func TestBothWays(t *testing.T) {
	var read []evidence.Reading
	for _, p := range [][5]float64{
		{0.25, 351.9, 2.9, 351.4, 2.4}, {0.5, 349.9, 4.9, 349.5, 4.6}, {1, 346.7, 7.9, 346.5, 7.6}, {2, 342.4, 12.2, 342.3, 11.9},
	} {
		for i, angle := range p[1:] {
			turn := evidence.Forward
			if i >= 2 {
				turn = evidence.Backward
			}
			read = append(read, evidence.Reading{Angle: degrees(angle), Depth: geometry.Length(p[0]), Turn: turn})
		}
	}
	setup := carEngine(92, 144)
	setup.Protractor.Step, setup.Protractor.Error = degrees(0.1), degrees(0.1)
	r := find(t, setup, read)
	for _, m := range r.Methods {
		require.InDelta(t, 0, (m.Angle - degrees(357.2)).Signed().Degrees(), m.Expanded.Degrees(), m.Name)
		require.InDelta(t, 0, (m.Angle - degrees(357.2)).Signed().Degrees(), 0.05, m.Name) // half a step
	}
	require.InDelta(t, 0.05, r.Lash.Value, 2*r.Lash.Uncertainty)
	require.Less(t, r.Lash.Uncertainty, 0.02)
}

// Exercise C, a V8 of S = 90, L = 152 with TDC at -4.80, read through a borescope
// to half a millimetre on a +-180 wheel.
func TestByEye(t *testing.T) {
	setup := carEngine(90, 152)
	setup.Gauge = evidence.DefaultGauge(evidence.Borescope)
	setup.Protractor.Scale = evidence.Halves
	var read []evidence.Reading
	for _, p := range [][2]float64{
		{-40, 10.5}, {-35, 8}, {-30, 5.5}, {-25, 4}, {-20, 2.5}, {10, 1.5}, {15, 3.5}, {20, 5.5}, {25, 7.5}, {30, 10.5},
	} {
		read = append(read, evidence.Reading{Angle: degrees(p[0]), Depth: geometry.Length(p[1]), Turn: evidence.Forward})
	}
	r := find(t, setup, read)
	require.InDelta(t, -4.80, r.TDC.Angle.Degrees(), r.TDC.Expanded.Degrees())
	require.Less(t, r.TDC.Expanded.Degrees(), 1.)
}

// The crank's place when a mark is in line, and what is not sure about it: TDC's
// own uncertainty, the protractor's error once, and its rounding.
func TestAfter(t *testing.T) {
	r := find(t, carEngine(86, 146), exerciseA())
	after := func(read ...geometry.Angle) (geometry.Angle, gum.Spread) {
		seen := r.After(read)
		return seen.Angle, seen.Spread()
	}
	at, one := after(r.TDC.Angle + degrees(2.8))
	require.InDelta(t, 2.8, at.Degrees(), 1e-3) // the wheel, found a hair off centre, is allowed for
	require.Greater(t, one.Standard(), float64(r.TDC.Uncertainty))
	at, four := after(degrees(359.8), degrees(0.2), degrees(359.9), degrees(0.1)) // across the wrap
	require.InDelta(t, -r.TDC.Angle.Degrees(), at.Degrees(), 0.01)
	require.InEpsilon(t, one.Standard(), four.Standard(), 0.01) // rounded alike, four tell no more than one
	_, wild := after(degrees(0), degrees(3), degrees(1))
	require.Greater(t, wild.Standard(), one.Standard())
	require.Less(t, wild.Degrees(), 10.)
}

// A place told from stops, dwells and views is no surer than the TDC that they tell:
// to TDC's variance, the protractor's error there in it, comes one rounding (JCGM 100, 5.1.2).
// A wheel on its centre, by the engine, has no part of its own.
func TestAfterRestsOnPairs(t *testing.T) {
	for name, c := range map[string]evidence.Cylinder{
		"stops":  {Stops: []evidence.Stop{{Rising: degrees(-26), Falling: degrees(34)}}},
		"dwells": {Dwell: []evidence.DwellPair{{Still: degrees(-4), Moves: degrees(12), Turn: evidence.Forward}, {Still: degrees(12), Moves: degrees(-4), Turn: evidence.Backward}}},
		"views":  {Views: []evidence.View{{Before: degrees(-14), After: degrees(22), Turn: evidence.Backward}}},
		"all of them, and readings": {
			Readings: exerciseA(),
			Stops:    []evidence.Stop{{Rising: degrees(-40), Falling: degrees(36)}}, Views: []evidence.View{{Before: degrees(-20), After: degrees(16), Turn: evidence.Forward}},
		},
	} {
		setup := carEngine(86, 146)
		setup.Protractor.OffCentre = 1e-6
		r, err := tdc.Find(setup, c)
		require.NoError(t, err, name)
		place := r.After([]geometry.Angle{r.TDC.Angle})
		p := setup.Protractor
		want := math.Hypot(float64(r.TDC.Uncertainty), float64(p.Step)/math.Sqrt(12))
		require.InEpsilon(t, want, place.Spread().Standard(), 0.02, name) // what the loss holds back of a reading has another part in the two
		require.InEpsilon(t, float64(r.TDC.Uncertainty), math.Hypot(position.Combine([]position.Seen{place}, geometry.Turn).OfTDC(), float64(p.Error)/math.Sqrt(3)), 0.02, name)
	}
}

// By throw and by piston differ by asin(e/(l + r)): 2.43 deg for 8 mm of 189.
func TestThrowToTDC(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Engine.BoreOffset = 8
	angle, half, err := setup.ThrowToTDC()
	require.NoError(t, err)
	require.InDelta(t, 2.426, angle.Degrees(), 0.001)
	require.InDelta(t, 14.0/188.83*57.29578, half.Degrees(), 0.001) // 14 mm: nobody stated the offset
}

// Readings written down in an order that their turn cannot have made are asked
// about; in any mixed order they are not.
func TestReadingsAgainstTheirTurn(t *testing.T) {
	read := exerciseA()
	for i := range read {
		read[i].Turn = evidence.Backward
	}
	contradicted := finding.CountsContradicted{Counts: evidence.With}
	require.Equal(t, contradicted, find(t, carEngine(86, 146), read).Findings[0])
	read[3], read[4] = read[4], read[3]
	require.Equal(t, contradicted, find(t, carEngine(86, 146), read).Findings[0]) // all but one
	slices.SortStableFunc(read, func(a, b evidence.Reading) int { return cmp.Compare(a.Depth, b.Depth) })
	mixed := find(t, carEngine(86, 146), read)
	require.False(t, has[finding.CountsContradicted](mixed))
	require.Empty(t, mixed.CannotTell)
}

// Eight readings to a millimetre, drawn on a bench with TDC between the sixth and
// the fifth: they fit a piston rising to a TDC far on as well, and no answer is
// better than a wrong one.
func TestTwoPlacesFitAlike(t *testing.T) {
	setup := carEngine(42.5, 91)
	setup.Engine.KnownTo = evidence.DefaultKnownTo(true)
	setup.Gauge = evidence.DefaultGauge(evidence.Borescope)
	setup.Gauge.Step, setup.Gauge.Error = 1, 0.5
	setup.Protractor.Step, setup.Protractor.Error = degrees(0.1), degrees(0.15)
	var read []evidence.Reading
	for _, p := range [][2]float64{{-29.1, 3}, {-25, 3}, {-20.3, 3}, {-14.9, 2}, {-9.2, 2}, {4.6, 1}, {6.7, 1}, {10.4, 1}} {
		read = append(read, evidence.Reading{Angle: degrees(p[0]), Depth: geometry.Length(p[1]), Turn: evidence.Forward})
	}
	_, err := tdc.Find(setup, evidence.Cylinder{Readings: read})
	require.ErrorContains(t, err, "about as well as near")
	// one flank by a finer gauge, and the engine known, is no riddle
	find(t, carEngine(86, 146), exerciseA()[:7])
}

// A reading that is left out makes no flank deeper.
func TestOnlyWhatIsUsedIsLopsided(t *testing.T) {
	read := exerciseA()
	read[0].Depth += 20
	r := find(t, carEngine(86, 146), read)
	require.True(t, r.Readings[0].Suspect)
	require.False(t, has[finding.FlanksLopsided](r))
	require.True(t, has[finding.FlanksLopsided](find(t, carEngine(86, 146), exerciseA()[4:])))
}
