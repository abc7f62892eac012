package position

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/adjust/adjusttest"
	"evendrop/tdc/adjust/solve"
	"evendrop/tdc/evidence"
)

func solved(t *testing.T, setup evidence.Setup, read []evidence.Reading) *adjust.Adjustment {
	t.Helper()
	crank, assumed, first := adjusttest.Opened(t, setup, read)
	a, err := solve.Readings(setup, crank, assumed, read, nil, first)
	require.NoError(t, err)
	return &adjust.Adjustment{Solved: a}
}

// A mark's place answers to every reading as solving again with the reading moved
// says: TDC's later is the mark's earlier.
func TestAfterIsTheDerivative(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	setup.Protractor.OffCentre = 3 // mm: so that the wheel has its part
	at := []geometry.Angle{80 * geometry.Degree}
	place := func(read []evidence.Reading) float64 {
		return float64(After(solved(t, setup, read), at).Angle)
	}
	a := solved(t, setup, read)
	seen := After(a, at)
	for i := range read {
		const d = 1e-4
		moved := append([]evidence.Reading{}, read...)
		moved[i].Depth += d
		up := place(moved)
		moved[i].Depth -= 2 * d
		down := place(moved)
		in := seen.in.Depth[i]
		require.InDelta(t, (up-down)/(2*d), in, 1e-4+0.03*math.Abs(in))
	}
}

// What may have moved leaves every position the same, so that two share all of it.
func TestDoubtIsShared(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	at := func(deg geometry.Angle) Seen { return After(a, []geometry.Angle{deg * geometry.Degree}) }
	before, alone, seen := at(10).Covariance(at(40)), a.TDC(), at(10)
	a.Shift, a.Doubt = 0, 0.002
	require.InDelta(t, before+0.002*0.002, at(10).Covariance(at(40)), 1e-9)
	require.InEpsilon(t, math.Hypot(seen.ofTDC(), 0.002), at(10).ofTDC(), 1e-9)
	a.Shift, a.Doubt = 0.01, 0.002
	require.InDelta(t, float64(seen.Angle)-0.01, float64(at(10).Angle), 1e-4) // the wheel's centre bends it
	require.Equal(t, alone, a.TDC(), "the curve's own is as it was")
	require.InDelta(t, float64(alone.Angle)+0.01, float64(a.Averaged().Angle), 1e-12)
	require.InEpsilon(t, math.Hypot(float64(alone.Uncertainty), 0.002), float64(a.Averaged().Uncertainty), 1e-9)
}

// A position through one place is the position read there, in all that it shares with
// others too; between places of weights that cancel, TDC cancels, and what is left is the
// error of two lines and what is unlike between them.
func TestThrough(t *testing.T) {
	setup, read := adjusttest.Lopsided(t)
	a := solved(t, setup, read)
	const deg = geometry.Degree
	own := gum.Component{Standard: float64(setup.Protractor.Step) / math.Sqrt(12), Degrees: math.Inf(1)}
	at := func(degrees, weight float64) Graduation { return Graduation{geometry.Angle(degrees) * deg, weight} }

	one, same := Through(a, []Graduation{at(113, 1)}, own), After(a, []geometry.Angle{113 * deg})
	require.InDelta(t, same.Angle.Degrees(), one.Angle.Degrees(), 1e-9)
	require.InDelta(t, same.Spread().Standard(), one.Spread().Standard(), 1e-12)
	require.InDelta(t, same.ofTDC(), one.ofTDC(), 1e-12)
	pin := After(a, []geometry.Angle{11.5 * deg})
	require.InDelta(t, same.Covariance(pin), one.Covariance(pin), 1e-15)
	require.InDelta(t, sq(own.Standard)+one.Covariance(one), sq(one.Spread().Standard()), 1e-12)

	// turns are counted: 400 deg is not 40, but is on its line
	far := Through(a, []Graduation{at(400, 1)}, own)
	require.InDelta(t, far.Angle.Degrees()-360, After(a, []geometry.Angle{40 * deg}).Angle.Degrees(), 1e-9)
	require.InDelta(t, far.Spread().Standard(), After(a, []geometry.Angle{40 * deg}).Spread().Standard(), 1e-12)

	between := Through(a, []Graduation{at(50, -1), at(150, 1)}, own)
	require.InDelta(t, 100, between.Angle.Degrees(), 0.6) // the wheel's centre, by its bound of 0.5 mm in 100
	lines, smooth := 2*a.Lines.Own, 2*a.Lines.Unlike(100*deg)
	require.InDelta(t, lines+smooth, between.scale, 1e-12)
	// by way of the wheel's centre alone, of which the readings tell a little
	require.Less(t, between.Readings.Standard, 0.2*same.Readings.Standard)
}
