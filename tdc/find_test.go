package tdc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// carEngine is an engine of stroke and rod (mm) with default instruments.
func carEngine(stroke, rod float64) evidence.Setup {
	s := evidence.Setup{
		Engine:     evidence.Engine{Stroke: geometry.Length(stroke), Rod: geometry.Length(rod)},
		Protractor: evidence.DefaultProtractor(),
		Gauge:      evidence.DefaultGauge(evidence.Dial),
	}
	s.Engine.KnownTo = evidence.DefaultKnownTo(false)
	return s
}

// clean is exact readings of a piston whose TDC is at top degrees, taken forward
// with no lash; the depths by the law of cosines, written out anew.
func clean(stroke, rod, top float64, at []float64) []evidence.Reading {
	var read []evidence.Reading
	r := stroke / 2
	for _, u := range at {
		sin, cos := math.Sincos(u * math.Pi / 180)
		depth := r*(1-cos) + rod - math.Sqrt(rod*rod-r*r*sin*sin)
		read = append(read, evidence.Reading{Angle: degrees(top + u), Depth: geometry.Length(depth), Turn: evidence.Forward})
	}
	return read
}

func degrees(d float64) geometry.Angle { return geometry.Angle(d) * geometry.Degree }

var unlike = []float64{-33, -27, -20, -14, -9, -5.5, 6.1, 8, 15, 22, 25, 31}

// Both methods give back the TDC of exact readings, wherever it is.
func TestCleanReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		top := rapid.Float64Range(-180, 360).Draw(t, "tdc")
		stroke := rapid.Float64Range(40, 400).Draw(t, "stroke")
		rod := stroke * rapid.Float64Range(1.3, 2.2).Draw(t, "ratio")
		setup := carEngine(stroke, rod)
		setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0, 0
		result, err := tdc.Find(setup, evidence.Cylinder{Readings: clean(stroke, rod, top, unlike)})
		require.NoError(t, err)
		require.Len(t, result.Methods, 2)
		for _, m := range result.Methods {
			off := (m.Angle - degrees(top)).Signed().Degrees()
			require.InDelta(t, 0, off, 1e-6, m.Name)
			require.False(t, math.IsNaN(off))
		}
	})
}

// The whole answer turns with the protractor, and changes sign with its sense.
func TestTurnsWithTheProtractor(t *testing.T) {
	setup := carEngine(86, 146)
	read := exerciseA()
	before, err := tdc.Find(setup, evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	turned, mirrored := append([]evidence.Reading{}, read...), append([]evidence.Reading{}, read...)
	for i := range read {
		turned[i].Angle += degrees(123.4)
		mirrored[i].Angle = -mirrored[i].Angle
		mirrored[i].Turn = evidence.Backward
	}
	after, err := tdc.Find(setup, evidence.Cylinder{Readings: turned})
	require.NoError(t, err)
	require.InDelta(t, 123.4, (after.TDC.Angle - before.TDC.Angle).Degrees(), 1e-6)
	other, err := tdc.Find(setup, evidence.Cylinder{Readings: mirrored})
	require.NoError(t, err)
	require.InDelta(t, -before.TDC.Angle.Degrees(), other.TDC.Angle.Degrees(), 1e-6)
}

// Readings about BDC are refused, whichever way the gauge counts.
func TestBottomIsNotTop(t *testing.T) {
	for _, sign := range []geometry.Length{1, -1} {
		read := clean(86, 146, 0, []float64{150, 156, 162, 168, 174, 180, 186, 192, 198, 204, 210})
		for i := range read {
			read[i].Depth *= sign
		}
		_, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: read})
		require.ErrorContains(t, err, "BDC")
	}
}

// A gauge that counts the other way than stated is noticed, and the answer is
// the same.
func TestGaugeCountsTheOtherWay(t *testing.T) {
	read := exerciseA()
	straight, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	for i := range read {
		read[i].Depth = -read[i].Depth
	}
	turned, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	require.InDelta(t, straight.TDC.Angle.Degrees(), turned.TDC.Angle.Degrees(), 1e-9)
	require.Equal(t, finding.GaugeCountsOtherWay{Counts: evidence.Up}, turned.Findings[0])
	for i, judged := range turned.Readings { // shown as they were typed
		require.Equal(t, read[i].Depth, judged.Depth)
	}
}

// A few coarse readings of one flank fit a gauge that counts either way by chance (found by
// invented jobs, 40 deg from the truth and calm): the job's word on the gauge holds, and TDC
// cannot be told.
func TestCoarseReadingsTurnNoGauge(t *testing.T) {
	setup := carEngine(92, 0)
	setup.Gauge = evidence.DefaultGauge(evidence.Borescope)
	setup.Gauge.Step, setup.Gauge.Error, setup.Gauge.ScaleKnownTo = 0.5, 0.5, 0.07
	var read []evidence.Reading
	for _, r := range [][2]float64{{99, 1.5}, {117.5, 7.5}, {116.5, 7.5}, {98, 1}} {
		read = append(read, evidence.Reading{Angle: degrees(r[0]), Depth: geometry.Length(r[1]), Turn: evidence.Forward})
	}
	_, err := tdc.Find(setup, evidence.Cylinder{Readings: read})
	require.ErrorContains(t, err, "fit TDC near 88 deg about as well as near 322")
}

// One mistyped depth is named, and moves TDC by less than half its standard
// uncertainty.
func TestMistypedReading(t *testing.T) {
	read := exerciseA()
	right, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	read[4].Depth += 0.5
	wrong, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	require.True(t, wrong.Readings[4].Suspect)
	require.NotNil(t, wrong.WithAll)
	moved := math.Abs((wrong.TDC.Angle - right.TDC.Angle).Degrees())
	require.Less(t, moved, right.TDC.Uncertainty.Degrees()/2)
}

// Whatever is mistyped, and by how much, the fit settles: it says when it did not.
func TestMistypedSettles(t *testing.T) {
	for i := range exerciseA() {
		for _, by := range []geometry.Length{-3, -0.5, -0.1, -0.06, 0.05, 0.08, 0.3, 2} {
			read := exerciseA()
			read[i].Depth += by
			result, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: read})
			require.NoError(t, err)
			_, unsettled := result.CannotTell.(finding.NotSettled)
			require.False(t, unsettled, "reading %d off by %v", i, by)
		}
	}
}

// Of many readings that do not fit a few are named, and the rest counted: it is the
// set-up then, or the engine's dimensions.
func TestManyMistypedAreCounted(t *testing.T) {
	var at []float64
	for u := -40.0; u <= 40; u++ {
		at = append(at, u+0.5)
	}
	read := clean(86, 146, 3, at)
	for i := 2; i < len(read); i += 6 {
		read[i].Depth += 3
	}
	result, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	named, suspects := 0, 0
	for _, r := range result.Readings {
		if r.Suspect {
			suspects++
		}
	}
	named = len(all[finding.SuspectReading](result))
	require.Equal(t, 14, suspects) // one in six of 81
	require.Equal(t, 8, named)
	require.Contains(t, result.Findings, finding.MoreSuspects{More: 6, Of: 81})
}

// The budget adds up in quadrature to the standard uncertainty.
func TestBudgetAddsUp(t *testing.T) {
	result, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: exerciseA()})
	require.NoError(t, err)
	sum := 0.0
	for _, c := range result.Budget {
		sum += c.Angle.Degrees() * c.Angle.Degrees()
	}
	require.InDelta(t, result.TDC.Uncertainty.Degrees(), math.Sqrt(sum), 1e-9)
}

// exerciseA is computed readings of a car engine with TDC at 3.40 deg, S = 86,
// L = 146, angles to half a degree, turned forward, no lash.
func exerciseA() []evidence.Reading {
	var read []evidence.Reading
	for i, p := range [][2]float64{
		{338.5, 5.13}, {343.5, 3.29}, {348.5, 1.87}, {351.5, 1.21}, {354.5, 0.67}, {357.5, 0.30}, {0.5, 0.07}, {3.5, 0.00},
		{6.5, 0.08}, {9.5, 0.31}, {12.5, 0.71}, {15.5, 1.23}, {18.5, 1.92}, {23.5, 3.33}, {28.5, 5.20},
	} {
		read = append(read, evidence.Reading{Angle: degrees(p[0]), Depth: geometry.Length(p[1]), Turn: evidence.Forward, Line: i + 2})
	}
	return read
}

func TestExerciseA(t *testing.T) {
	result, err := tdc.Find(carEngine(86, 146), evidence.Cylinder{Readings: exerciseA()})
	require.NoError(t, err)
	require.Less(t, math.Abs(result.TDC.Angle.Degrees()-3.40), result.TDC.Expanded.Degrees())
	require.Less(t, result.AgreeTo.Expanded.Degrees(), 0.25) // what such readings can tell, lash unknown and one way
	require.True(t, result.Agreement.Agrees())
}

// An engine that is out of line by as much in pin and bore, each toward its own
// positive side, is in line.
func TestPinAndBoreOffsetCancel(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Engine.PinOffset, setup.Engine.BoreOffset = 1, 1
	toTDC, _, err := setup.ThrowToTDC()
	require.NoError(t, err)
	require.Zero(t, toTDC)
	setup.Engine.PinOffset = 0
	toTDC, _, err = setup.ThrowToTDC()
	require.NoError(t, err)
	require.Greater(t, math.Abs(toTDC.Degrees()), 0.1) // 1 mm of 189
}

// A rod nobody measured is one that an engine may have: Heywood puts rods of small
// and medium engines at 3 to 4 throws, 1.5 to 2 strokes (section 2.2, from memory).
func TestAssumedRod(t *testing.T) {
	r := find(t, carEngine(80, 0), clean(80, 136, 2, []float64{-30, -24, -18, -12, -6, 6, 12, 18, 24, 30}))
	low, high := r.Assumed.Rod-r.Assumed.RodKnownTo, r.Assumed.Rod+r.Assumed.RodKnownTo
	require.LessOrEqual(t, low, 1.5*80*geometry.Millimetre)
	require.GreaterOrEqual(t, high, 2*80*geometry.Millimetre)
	require.Greater(t, low, 80*geometry.Millimetre)
}

// What reads the piston by eye is known worse than what reads it by rule, and that
// worse than a dial gauge (common practice, no source).
func TestDefaultGauges(t *testing.T) {
	dial, rod, eye := evidence.DefaultGauge(evidence.Dial), evidence.DefaultGauge(evidence.DepthRod), evidence.DefaultGauge(evidence.Borescope)
	require.Greater(t, rod.Uncertainty(), 2*dial.Uncertainty())
	require.Greater(t, eye.Uncertainty(), 4*rod.Uncertainty())
	require.Greater(t, eye.ScaleKnownTo, dial.ScaleKnownTo)
}

// The two methods are compared as equal drop less curve fit.
func TestAgreementIsTheDifferenceOfTheMethods(t *testing.T) {
	r := find(t, carEngine(86, 146), exerciseA())
	require.Equal(t, tdc.EqualDrop, r.Methods[0].Name)
	require.Equal(t, tdc.CurveFit, r.Methods[1].Name)
	difference := (r.Methods[0].Angle - r.Methods[1].Angle).Degrees()
	require.Greater(t, math.Abs(difference), 1e-4)
	require.InDelta(t, difference, r.Agreement.Difference.Degrees(), 1e-9)
}

// With a reading a millimetre out trusted, TDC is known far worse than without it.
func TestTrustedReadingsCostCertainty(t *testing.T) {
	read := exerciseA()
	read[4].Depth++
	r := find(t, carEngine(86, 146), read)
	require.NotNil(t, r.WithAll)
	// it lies some twelve of its standard uncertainties out: 144 of chi-square to twelve
	// degrees of freedom widen by Birge's ratio of 3.5
	require.Greater(t, r.WithAll.Expanded, alone(r).Expanded*7/2)
}

// Turned both ways, lash cancels in equal drop, however many more readings one way
// has than the other: 0.2 mm of it makes each way 0.2 to 0.4 deg late at these places.
func TestDirectionsWeighAlike(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0, 0.2
	b := benchtest.Bench{Throw: 43, Rod: 146, Lash: 0.2, Gauge: 1, Radius: 100}.Settled()
	var places []benchtest.Place
	for _, u := range []float64{-30.2, -30, -24.2, -24, -18.2, -18, 18, 18.2, 24, 24.2, 30, 30.2} {
		places = append(places, benchtest.Place{U: u * degree, Turn: evidence.Forward})
	}
	for _, u := range []float64{30, 24, 18, -18, -24, -30} {
		places = append(places, benchtest.Place{U: u * degree, Turn: evidence.Backward})
	}
	var read []evidence.Reading
	for i, depth := range b.Depths(places) {
		read = append(read, evidence.Reading{Angle: geometry.Angle(places[i].U), Depth: geometry.Length(depth), Turn: places[i].Turn})
	}
	r := find(t, setup, read)
	require.Equal(t, tdc.EqualDrop, r.Methods[0].Name)
	require.InDelta(t, 0, r.Methods[0].Angle.Degrees(), 0.03) // their depths are not quite the same
}

// Two methods agree when they differ by no more than chance may, either way.
func TestAgrees(t *testing.T) {
	for difference, agrees := range map[geometry.Angle]bool{0.9: true, -0.9: true, 1.1: false, -1.1: false, 50: false} {
		require.Equal(t, agrees, tdc.Agreement{Difference: difference, Limit: 1}.Agrees())
	}
}
