package jobtest

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// An engine of throw 42 and rod 138 whose bore stands 8 mm toward where the pin goes
// after TDC: TDC comes asin(8/180) after throw-along-bore (Soylemez 7.2), the piston
// moves sqrt(180^2 - 8^2) - sqrt(96^2 - 8^2) in all, and half-way between equal drops
// comes atan(8/(top - drop)) - atan(8/top) after TDC (KMODDL).
func TestEngine(t *testing.T) {
	e := engine{throw: 42, rod: 138, across: 8}
	at, top := e.top()
	require.InDelta(t, math.Asin(8./180), at, 1e-12)
	require.InDelta(t, e.height(at), top, 1e-9)
	most := 0.0
	for u := 2.8; u < 3.5; u += 1e-4 {
		most = math.Max(most, e.drop(u))
	}
	require.InDelta(t, math.Sqrt(180*180-64)-math.Sqrt(96*96-64), most, 1e-6) // steps of 1e-4 rad miss the lowest by their square times some 20 mm
	for _, drop := range []float64{0.5, 10, 25} {
		middle := (e.angleAt(drop, false) + e.angleAt(drop, true)) / 2
		require.InDelta(t, math.Atan(8/(top-drop))-math.Atan(8/top), middle, 1e-9)
	}
}

// Lash leaves the piston half of it below while it is pushed up, and above once it is
// pulled down; over the top it hangs.
func TestLash(t *testing.T) {
	e := engine{throw: 42, rod: 138, lash: 0.1}
	u := 20 * degree
	require.InDelta(t, e.drop(u)+0.05, e.low(-u, true), 1e-9)
	require.InDelta(t, e.drop(u)-0.05, e.low(u, true), 1e-9)
	require.InDelta(t, e.drop(u)-0.05, e.low(-u, false), 1e-9)
	require.InDelta(t, e.drop(u)+0.05, e.low(u, false), 1e-9)
	require.InDelta(t, 0.05, e.low(0.01, true), 1e-9)
}
