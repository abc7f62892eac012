package lobe_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
)

const deg = geometry.Degree

// rows is readings from pairs of an angle in degrees and a lift in mm.
func rows(pairs ...float64) (list []lobe.Reading) {
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, lobe.Reading{Angle: geometry.Angle(pairs[i]) * deg, Lift: geometry.Length(pairs[i+1]),
			Turn: evidence.Forward, File: "lobe.csv", Line: i/2 + 2})
	}
	return list
}

// tdcAt is the result of a quiet bench whose protractor shows TDC at so many degrees.
func tdcAt(t *testing.T, degrees float64, p evidence.Protractor) lobe.From {
	t.Helper()
	setup := evidence.Setup{Engine: benchtest.Engine(86, 146), Protractor: p, Gauge: benchtest.Gauge(evidence.Dial, 0.01, 0.02)}
	b := benchtest.Bench{Throw: 43, Rod: 146, Lash: 0.06, Gauge: 1, Radius: 100, Start: degrees * benchtest.Degree}.Settled()
	var read []evidence.Reading
	places := benchtest.Balanced(2, 24).Meant(b)
	for i, depth := range b.Depths(places) {
		read = append(read, evidence.Reading{Angle: geometry.Angle(b.Shown(places[i].U)), Depth: geometry.Length(depth), Turn: places[i].Turn, Line: i + 2})
	}
	r, err := tdc.Find(setup, evidence.Cylinder{Number: 1, Readings: read})
	require.NoError(t, err)
	require.InDelta(t, degrees, r.TDC.Angle.Degrees(), 1e-3)
	return lobe.From{Result: r}
}

// The invented case of lobes.md 5: both cams one tooth of 21 late, 17.1 crank degrees. It
// gives its figures to a hundredth of a degree and a thousandth of a millimetre.
func TestInventedCase(t *testing.T) {
	from := tdcAt(t, 2.4, evidence.DefaultProtractor())
	inlet := lobe.Measure(evidence.DefaultProtractor(), from, lobe.Lobe{
		Name: "inlet", Valve: lobe.Inlet, Cylinder: 1, Gauge: lobe.DefaultGauge(),
		Card:     lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg},
		Readings: rows(2.5, 0.76, 7.5, 1.03, 11.5, 1.30, 30.5, 3.00, 61, 6.03, 127.5, 9.20, 194, 5.98, 223.5, 3.00, 243, 1.31, 247.5, 1.00, 251.5, 0.76),
	})
	exhaust := lobe.Measure(evidence.DefaultProtractor(), from, lobe.Lobe{
		Name: "exhaust", Valve: lobe.Exhaust, Cylinder: 1, Gauge: lobe.DefaultGauge(),
		Card:     lobe.Card{Lift: 1, HasEvents: true, Opens: 130 * deg, Closes: 10 * deg},
		Readings: rows(145.5, 0.75, 149.5, 0.99, 154.5, 1.31, 174, 2.99, 205.5, 6.00, 268.5, 8.79, 332.5, 5.97, 5, 3.00, 25, 1.30, 29.5, 0.98, 34.5, 0.73),
	})
	for _, c := range []struct {
		m                                                      lobe.Measured
		opens, closes, centre, duration, tenths, shift, offset float64
	}{
		{inlet, 4.58, 180 + 65.10, 124.8, 240.5, 0.05, 16.85, -0.016},
		{exhaust, -180 - 32.73, 26.80, -92.97, 239.53, 0.01, 17.02, 0.015},
	} {
		require.Nil(t, c.m.CannotTell)
		e := c.m.Events
		require.InDelta(t, c.opens, e.Opens.Angle.Degrees(), hundredth)
		require.InDelta(t, c.closes, e.Closes.Angle.Degrees(), hundredth)
		require.InDelta(t, c.centre, e.Centre.Angle.Degrees(), c.tenths)
		require.InDelta(t, c.duration, e.Duration.Angle.Degrees(), c.tenths)
		require.InDelta(t, c.shift, c.m.Shift.Angle.Degrees(), hundredth)
		require.InDelta(t, c.offset, c.m.Shift.Offset.Value, 0.0005) // printed to a thousandth
		require.Less(t, math.Abs(c.m.Shift.Angle.Degrees()-toothOf21), c.m.Shift.Expanded.Degrees())
		require.Less(t, math.Abs(c.m.Shift.Offset.Value), 2*c.m.Shift.Offset.Uncertainty)
		require.Len(t, c.m.Levels, 5)
	}
	pair, ok := lobe.Paired(exhaust, inlet)
	require.True(t, ok)
	require.InDelta(t, (124.84+92.97)/2, pair.Separation.Angle.Degrees(), hundredth)
	require.InDelta(t, 26.80-4.58, pair.Overlap.Angle.Degrees(), 2*hundredth)
	// what both cams share cancels: TDC, and the drive's slip
	apart := math.Hypot(float64(inlet.Events.Centre.Uncertainty), float64(exhaust.Events.Centre.Uncertainty))
	require.Less(t, 2*float64(pair.Separation.Uncertainty), apart)
	_, ok = lobe.Paired(inlet, exhaust)
	require.False(t, ok)
}

// One tooth of 21, crank degrees; and half of what a hundredth rounds off, with 0.001 for
// where the bench's TDC is.
const (
	toothOf21 = 360. / 21
	hundredth = 0.006
)
