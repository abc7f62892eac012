package tdc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// drawnJob is 16 readings both ways of the simulator's bench, on a gauge that
// leans, with lash.
func drawnJob(t *testing.T) tdc.Result { return drawnWith(t, evidence.Cylinder{Number: 1}) }

// drawnWith is drawnJob with other evidence of the cylinder beside the readings.
func drawnWith(t *testing.T, cylinder evidence.Cylinder) tdc.Result {
	t.Helper()
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0.1, 0.05
	b := benchtest.Bench{Throw: 43, Rod: 146, Lash: 0.1, Gauge: 1.03, Zero: 5, Radius: 100, Start: 0.07}.Settled()
	var readings []evidence.Reading
	var places []benchtest.Place
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		for _, u := range []float64{-27, -21, -15, -10, 11, 16, 22, 28} {
			places = append(places, benchtest.Place{U: u * degree * float64(turn), Turn: turn})
		}
	}
	for i, depth := range b.Depths(places) {
		readings = append(readings, evidence.Reading{
			Angle: geometry.Angle(b.Shown(places[i].U)), Depth: geometry.Length(depth), Turn: places[i].Turn, Line: i + 2,
		})
	}
	cylinder.Readings = readings
	r, err := tdc.Find(setup, cylinder)
	require.NoError(t, err)
	return r
}

// withPairs is a cylinder with every kind of pair, about TDC at 0.07 rad, 4.01 deg.
func withPairs() evidence.Cylinder {
	at := func(degrees float64) geometry.Angle { return geometry.Angle(degrees) * geometry.Degree }
	return evidence.Cylinder{
		Number: 1,
		Stops:  []evidence.Stop{{Rising: at(-26), Falling: at(34)}},
		Dwell:  []evidence.DwellPair{{Still: at(-4), Moves: at(12.5), Turn: evidence.Forward}},
		Views:  []evidence.View{{Before: at(-14), After: at(22), Turn: evidence.Backward}},
	}
}

// Beside stops, a dwell and views the curve is still that of the readings.
func TestDrawnCurveBesidePairs(t *testing.T) {
	r := drawnWith(t, withPairs())
	require.Len(t, r.Readings, 16)
	for _, j := range r.Readings {
		u := r.FromTDC(j.Angle)
		p := r.Curve(j.Turn, []geometry.Angle{u, u + 0.1})[0]
		require.InDelta(t, float64(j.Residual), float64(r.Below(j.Depth)-p.Below), 1e-9) // as in TestDrawnCurveLeavesTheResiduals
	}
}

// The curve that is drawn is the one that was fitted: a reading lies off it by its
// residual. Both are the same sums in another order, good to some 1e-12 mm.
func TestDrawnCurveLeavesTheResiduals(t *testing.T) {
	r := drawnJob(t)
	for _, j := range r.Readings {
		u := r.FromTDC(j.Angle)
		p := r.Curve(j.Turn, []geometry.Angle{u})[0]
		require.Equal(t, u, p.Angle)
		require.InDelta(t, float64(j.Residual), float64(r.Below(j.Depth)-p.Below), 1e-9)
	}
}

// Past the top the piston hangs above the falling flank by half the lash, and turned
// back it is on the rising one, half the lash below: a whole lash apart where it is
// taken up. The simulated lash is 0.1 mm of piston.
func TestDrawnCurvesAreALashApart(t *testing.T) {
	r := drawnJob(t)
	at := []geometry.Angle{-25 * geometry.Degree, 20 * geometry.Degree}
	forward, backward := r.Curve(evidence.Forward, at), r.Curve(evidence.Backward, at)
	const fitted = 0.005 // mm: the instruments' rounding is none here, but the fit shares 0.1 mm with its prior
	require.InDelta(t, 0.1, float64(forward[0].Below-backward[0].Below), fitted)
	require.InDelta(t, -0.1, float64(forward[1].Below-backward[1].Below), fitted)
}

// The slope is the curve's own, by central differences of 1e-4 rad, whose error is
// their square times a third derivative of some 60 mm.
func TestDrawnSlope(t *testing.T) {
	r := drawnJob(t)
	const h = 1e-4
	for _, u := range []geometry.Angle{-0.37, 0.21, 0.5} {
		p := r.Curve(evidence.Forward, []geometry.Angle{u - h, u, u + h})
		require.InDelta(t, float64(p[2].Below-p[0].Below)/(2*h), float64(p[1].Slope), 1e-5)
		gauge := math.Hypot(0.02/math.Sqrt(3), 0.01/math.Sqrt(12))
		angle := math.Hypot(0.25/math.Sqrt(3), 0.5/math.Sqrt(12)) * degree
		require.InDelta(t, math.Hypot(gauge, angle*float64(p[1].Slope)), float64(r.ResidualUncertainty(p[1])), 1e-12)
	}
}

// At TDC the curve is where the gauge's zero of depth lies, but for the lash.
func TestDrawnTop(t *testing.T) {
	r := drawnJob(t)
	require.InDelta(t, 0, float64(r.FromTDC(r.TDC.Angle+geometry.Turn)), 1e-12)
	require.InDelta(t, r.CrownDepth.Value+1, float64(geometry.Length(r.CrownDepth.Value)+r.Below(geometry.Length(r.CrownDepth.Value)+1)), 1e-9)
}
