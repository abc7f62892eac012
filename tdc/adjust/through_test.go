package adjust

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
)

// A position through one place is the position read there, in all that it shares with
// others too; between places of weights that cancel, TDC cancels, and what is left is the
// error of two lines and what is unlike between them.
func TestThrough(t *testing.T) {
	setup, read := lopsidedJob(t)
	a := solved(t, setup, read)
	const deg = geometry.Degree
	own := gum.Component{Standard: float64(setup.Protractor.Step) / math.Sqrt(12), Degrees: math.Inf(1)}
	at := func(degrees, weight float64) Graduation { return Graduation{geometry.Angle(degrees) * deg, weight} }

	one, same := a.Through([]Graduation{at(113, 1)}, own), a.After([]geometry.Angle{113 * deg})
	require.InDelta(t, same.Angle.Degrees(), one.Angle.Degrees(), 1e-9)
	require.InDelta(t, same.Spread().Standard(), one.Spread().Standard(), 1e-12)
	require.InDelta(t, same.OfTDC(), one.OfTDC(), 1e-12)
	pin := a.After([]geometry.Angle{11.5 * deg})
	require.InDelta(t, same.Covariance(pin), one.Covariance(pin), 1e-15)
	require.InDelta(t, sq(own.Standard)+one.Covariance(one), sq(one.Spread().Standard()), 1e-12)

	// turns are counted: 400 deg is not 40, but is on its line
	far := a.Through([]Graduation{at(400, 1)}, own)
	require.InDelta(t, far.Angle.Degrees()-360, a.After([]geometry.Angle{40 * deg}).Angle.Degrees(), 1e-9)
	require.InDelta(t, far.Spread().Standard(), a.After([]geometry.Angle{40 * deg}).Spread().Standard(), 1e-12)

	between := a.Through([]Graduation{at(50, -1), at(150, 1)}, own)
	require.InDelta(t, 100, between.Angle.Degrees(), 0.6) // the wheel's centre, by its bound of 0.5 mm in 100
	lines, smooth := 2*a.scale.own, 2*a.scale.unlike(100*deg)
	require.InDelta(t, lines+smooth, between.Scale, 1e-12)
	// by way of the wheel's centre alone, of which the readings tell a little
	require.Less(t, between.Readings.Standard, 0.2*same.Readings.Standard)
}
