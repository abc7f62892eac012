package tdc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
)

// flanksAt is a place at each half angle, in degrees, before and after TDC.
func flanksAt(turn evidence.TurnDirection, halfAngles ...float64) []adjust.Place {
	var places []adjust.Place
	for _, u := range halfAngles {
		for _, side := range []geometry.Angle{-1, 1} {
			places = append(places, adjust.Place{Angle: side * geometry.Angle(u) * geometry.Degree, Turn: turn})
		}
	}
	return places
}

// bareSetup has nothing but reading errors: u(angle) 0.15 deg and u(depth) 0.005 mm
// on a crank of 86 mm stroke and 146 mm rod.
func bareSetup() evidence.Setup {
	var s evidence.Setup
	s.Engine = evidence.Engine{Stroke: 86, Rod: 146}
	s.Protractor = evidence.Protractor{Scale: evidence.Full, Error: 0.15 * geometry.Degree * geometry.Angle(math.Sqrt(3))}
	s.Gauge = evidence.Gauge{Error: geometry.Length(0.005 * math.Sqrt(3)), ScaleKnownTo: 0.1}
	return s
}

// slopeAt is the piston's in mm per degree, by differences of the textbook's
// position r cos t + sqrt(l^2 - r^2 sin^2 t).
func slopeAt(u float64) float64 {
	height := func(deg float64) float64 {
		sin, cos := math.Sincos(deg * degree)
		return 43*cos + math.Sqrt(146*146-43*43*sin*sin)
	}
	return (height(u-1e-4) - height(u+1e-4)) / 2e-4
}

// Of readings at equal drops on both flanks, scale and zero say nothing of TDC, for
// they act the same way on both: its information is the sum of 1/u^2 of each angle,
// u^2 = u(angle)^2 + (u(depth)/slope)^2 (JCGM 100 5.1.2). Known lash c adds nothing;
// lash known to u(c) shifts every angle by c/2 over the slope, one way alike.
func TestForeseeByHand(t *testing.T) {
	angles := []float64{8, 13, 19, 25}
	a11, a12, a22 := 0.0, 0.0, 0.0 // information on TDC and on lash
	for _, u := range angles {
		s := slopeAt(u)
		w := 2 / (s*s*0.15*0.15 + 0.005*0.005)
		a11 += w * s * s
		a12 += w * s / 2
		a22 += w / 4
	}
	setup := bareSetup()
	f, err := adjust.Foresee(setup, flanksAt(evidence.Forward, angles...))
	require.NoError(t, err)
	// the differences above are good to some 1e-8
	require.InEpsilon(t, 1/math.Sqrt(a11), f.AgreeTo.Uncertainty.Degrees(), 1e-6)
	require.InEpsilon(t, 1.959964*f.AgreeTo.Uncertainty.Degrees(), f.AgreeTo.Expanded.Degrees(), 1e-5)

	setup.Gauge.Lash, setup.Gauge.LashKnownTo = 0.06, 0.03
	a22 += 3 / (0.03 * 0.03)
	f, err = adjust.Foresee(setup, flanksAt(evidence.Forward, angles...))
	require.NoError(t, err)
	require.InEpsilon(t, math.Sqrt(a22/(a11*a22-a12*a12)), f.AgreeTo.Uncertainty.Degrees(), 1e-6)
	square := 0.0
	for _, c := range f.Budget {
		square += c.Angle.Degrees() * c.Angle.Degrees()
	}
	require.InEpsilon(t, f.TDC.Uncertainty.Degrees(), math.Sqrt(square), 1e-9)

	_, err = adjust.Foresee(setup, flanksAt(evidence.Forward, 8)[:1])
	require.Error(t, err)
}

// An outlook says to first order what the adjustment itself foresees, before any
// reading and after some; taking a place and leaving it changes nothing.
func TestOutlook(t *testing.T) {
	setup := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
	setup.Engine = evidence.Engine{Stroke: 81.4, Rod: 133, PinOffset: 0.7, KnownTo: evidence.DefaultKnownTo(true)}
	forward, back := flanksAt(evidence.Forward, 6, 11, 17, 24), flanksAt(evidence.Backward, 8, 20)
	places := append(forward, back...)
	want, err := adjust.Foresee(setup, places)
	require.NoError(t, err)
	o, err := adjust.NewOutlook(setup, places)
	require.NoError(t, err)
	for i := range len(places) - 2 {
		o.Take(i)
	}
	n := len(places)
	pair, one := o.With(n-2, n-1), o.WithOne(n-2)
	before := o.Uncertainty()
	o.Take(n - 2)
	// what the wide start knows of TDC and zero leaves some 1e-4 of a part
	const wide = 1e-4
	require.InEpsilon(t, float64(one), float64(o.Uncertainty()), 1e-9)
	o.Take(n - 1)
	require.InEpsilon(t, float64(pair), float64(o.Uncertainty()), 1e-9)
	require.InEpsilon(t, float64(want.AgreeTo.Uncertainty), float64(o.Uncertainty()), wide)
	o.Leave(n - 1)
	o.Leave(n - 2)
	require.InEpsilon(t, float64(before), float64(o.Uncertainty()), 1e-9)

	// after readings without error, the outlook is from where they stand
	result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: exact(t, setup, forward)})
	require.NoError(t, err)
	after := result.Outlook(back)
	for i := range back {
		after.Take(i)
	}
	require.InEpsilon(t, float64(want.AgreeTo.Uncertainty), float64(after.Uncertainty()), 1e-3) // the fit's best offset is not quite the stated one
}

// exact is readings without error of an engine as stated, TDC at 3.4 deg.
func exact(t *testing.T, setup evidence.Setup, places []adjust.Place) []evidence.Reading {
	b := benchtest.Bench{
		Throw: float64(setup.Engine.Stroke) / 2, Rod: float64(setup.Engine.Rod), Across: float64(setup.Engine.Offset()),
		Lash: float64(setup.Gauge.Lash), Gauge: 1, Zero: 5, Radius: 100, Start: 3.4 * degree,
	}.Settled()
	var at []benchtest.Place
	for _, p := range places {
		at = append(at, benchtest.Place{U: float64(p.Angle), Turn: p.Turn})
	}
	at = benchtest.InOrder(at)
	var readings []evidence.Reading
	for i, depth := range b.Depths(at) {
		readings = append(readings, evidence.Reading{
			Angle: geometry.Angle(b.Shown(at[i].U)), Depth: geometry.Length(depth), Turn: at[i].Turn, Line: i + 2,
		})
	}
	return readings
}

// What a reading should show is what the bench shows there, both ways, in the
// gauge's own sense.
func TestExpect(t *testing.T) {
	for _, counts := range []evidence.Count{evidence.Down, evidence.Up} {
		setup := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
		setup.Gauge.Counts = counts
		setup.Engine = evidence.Engine{Stroke: 81.4, Rod: 133, KnownTo: evidence.DefaultKnownTo(false)}
		forward, back := flanksAt(evidence.Forward, 8, 14, 22), flanksAt(evidence.Backward, 9, 15, 23)
		read := append(exact(t, setup, forward), exact(t, setup, back)...)
		result, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: read})
		require.NoError(t, err)
		for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
			for _, r := range exact(t, setup, flanksAt(turn, 11, 18)) {
				depth, sigma := result.Expect(r.Angle, r.Turn)
				require.InDelta(t, float64(setup.Gauge.Falling(r.Depth)), float64(depth), 1e-4)
				// more than the instruments' own, by what twelve readings leave of the curve: less than half of one's
				early := exact(t, setup, []adjust.Place{{Angle: r.Angle - 3.4*geometry.Degree - 1e-4, Turn: turn}})[0]
				late := exact(t, setup, []adjust.Place{{Angle: r.Angle - 3.4*geometry.Degree + 1e-4, Turn: turn}})[0]
				slope := float64(late.Depth-early.Depth) / 2e-4
				own := math.Hypot(float64(setup.Gauge.Uncertainty()), float64(setup.Protractor.Uncertainty())*slope)
				require.Greater(t, float64(sigma), 1.01*own)
				require.Less(t, float64(sigma), math.Sqrt(1.5)*own)
			}
		}
	}
}
