// Package adjusttest has what the tests of the adjustment's rooms share: a job of an
// invented engine.
package adjusttest

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/look"
)

// Lopsided is readings of an invented car engine by a slightly wrong gauge, more
// on one side than on the other, both ways.
func Lopsided(t *testing.T) (evidence.Setup, []evidence.Reading) {
	t.Helper()
	setup := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(true), OffsetStated: true},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	crank, err := setup.Engine.SliderCrank()
	require.NoError(t, err)
	var read []evidence.Reading
	for i, u := range []float64{-27.4, -22.1, -18.2, -14.3, -9.7, 7.9, 12.2, 16.4, 13.1, 9.3, -8.4, -15.8} {
		turn := evidence.Forward
		if i >= 8 {
			turn = evidence.Backward
		}
		jitter := 0.004 * math.Sin(float64(7*i)) // mm
		low := float64(crank.Drop(geometry.Angle(u)*geometry.Degree)) - 0.02*math.Copysign(1, u*float64(turn))
		read = append(read, evidence.Reading{
			Angle: (geometry.Angle(u) + 3) * geometry.Degree, Depth: geometry.Length(1.01*low + jitter), Turn: turn, Line: i + 2,
		})
	}
	return setup, read
}

// Opened is a job's crank, what is assumed of it, and a first look at its readings.
func Opened(t *testing.T, setup evidence.Setup, read []evidence.Reading) (geometry.SliderCrank, evidence.Assumed, look.Rough) {
	t.Helper()
	crank, assumed, err := evidence.WithAssumed(setup.Engine)
	require.NoError(t, err)
	angle, depth := evidence.Columns(read)
	first, err := look.Open(crank, true, angle, depth)
	require.NoError(t, err)
	return crank, assumed, first.Rough
}
