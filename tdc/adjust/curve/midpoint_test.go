package curve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// The derivatives of a midpoint are its differences.
func TestMidpointDerivatives(t *testing.T) {
	m := Midpoint{Half: 0.4, ByLash: 0.05, ByEye: -0.4}
	beta := make([]float64, Count)
	beta[Offset], beta[WheelP], beta[Lash], beta[Eye] = 1.5, 0.003, 0.04, 0.1
	crank := mustCrank(t)
	at := func(e, p float64) float64 {
		moved := append([]float64(nil), beta...)
		moved[Offset], moved[WheelP] = e, p
		off, _, _ := m.Expected(crank.WithOffset(geometry.Length(e)), moved)
		return off
	}
	_, byOffset, byP := m.Expected(crank.WithOffset(1.5), beta)
	require.InEpsilon(t, (at(1.51, 0.003)-at(1.49, 0.003))/0.02, byOffset, 1e-6) // the difference's own error is its square times some 1e-4
	require.InEpsilon(t, (at(1.5, 0.004)-at(1.5, 0.002))/0.002, byP, 1e-9)
}

// Half-way between is where both angles, half away, have one drop; two that are one
// are at TDC.
func TestMidwayIsAtEqualDrop(t *testing.T) {
	for _, e := range []geometry.Length{-12, 0, 1.5, 20} {
		crank := mustCrank(t).WithOffset(e)
		for _, half := range []float64{1e-9, 0.02, 0.4, 1.5} {
			at, _ := midway(crank, half)
			require.InDelta(t, float64(crank.Drop(geometry.Angle(at-half))), float64(crank.Drop(geometry.Angle(at+half))), 1e-12, "%v %v", e, half)
		}
		at, byOffset := midway(crank, 0)
		require.Zero(t, at)
		require.Zero(t, byOffset)
	}
}

// A wheel off its centre moves a midpoint from what it shows at TDC as the geometry
// of two circles has it.
func TestMidpointOnAWheelOffCentre(t *testing.T) {
	const off, radius, half = 1.0, 100.0, 0.5
	// the wheel's centre lies off, toward the pointer's place a quarter turn after TDC
	shown := func(u float64) float64 { return math.Atan2(radius*math.Sin(u)-off, radius*math.Cos(u)) }
	beta := make([]float64, Count)
	// shown = u - off/radius cos u, to first order: p is -off/radius
	beta[WheelP] = -off / radius
	expected, _, _ := Midpoint{Half: half}.Expected(mustCrank(t), beta)
	require.InEpsilon(t, (shown(half)+shown(-half))/2-shown(0), expected, 0.01)
}

// What one pair is worth: two roundings of a step and two errors within their
// bound, halved (JCGM 100 4.3.7); a view's match of 0.1 mm over the slope besides,
// and lash over twice the slope, r (1 + r/l) u near TDC.
func TestWorthOfAPair(t *testing.T) {
	p := evidence.Protractor{Step: geometry.Degree, Error: geometry.Degree / 2}
	m := newMidpoint(p, -0.1, 0.1)
	single := math.Hypot(1/math.Sqrt(12), 0.5/math.Sqrt(3))
	require.InEpsilon(t, single/math.Sqrt2, geometry.Angle(m.Sigma).Degrees(), 1e-9)
	setup := evidence.Setup{Protractor: p, Gauge: evidence.DefaultGauge(evidence.Dial)}
	list := Midpoints(setup, mustCrank(t), evidence.Cylinder{Views: []evidence.View{{Before: -0.1, After: 0.1, Turn: evidence.Backward}}})
	slope := 43 * (1 + 43./146) * 0.1
	require.InEpsilon(t, -1/(2*slope), list[0].ByLash, 0.005) // the slope bends a little by 0.1 rad
	match := 0.1 / math.Sqrt(3) / slope / math.Sqrt2
	require.InEpsilon(t, math.Hypot(m.Sigma, match), list[0].Sigma, 0.005)
}

// Three repeats that scatter are worth what Student's t makes of two degrees of
// freedom: 4.303 for 1.960 (table G.2 of JCGM 100).
func TestWorthOfScatteredRepeats(t *testing.T) {
	p := evidence.Protractor{Step: geometry.Degree / 10}
	var repeats []Midpoint
	for _, at := range []float64{0, 1, 2} {
		repeats = append(repeats, Midpoint{Angle: geometry.Angle(at) * geometry.Degree, Half: 0.5})
	}
	m := oneStop(p, repeats)
	require.InDelta(t, 1/math.Sqrt(3)*4.303/1.960, geometry.Angle(m.Sigma).Degrees(), 0.001)
	require.InDelta(t, 2, m.Scatter.Degrees(), 1e-12)
}

func mustCrank(t *testing.T) geometry.SliderCrank {
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	return crank
}
