// Package marktest is an invented engine that the tests of tdc/mark and
// tdc/mark/joint read and judge.
package marktest

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// Deg is an angle in degrees.
func Deg(d float64) geometry.Angle { return geometry.Angle(d) * geometry.Degree }

// Bench is a petrol four with nothing doubtful but its readings.
func Bench() evidence.Setup {
	s := evidence.Setup{
		Engine:     evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)},
		Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial),
	}
	s.Gauge.Lash, s.Gauge.LashKnownTo = 0, 0
	return s
}

// Readings is depths of Bench's piston by the law of cosines, with TDC at top
// degrees, and lash that pushes it late; noise is in standard uncertainties.
func Readings(s evidence.Setup, top float64, lash geometry.Length, noise func() float64) []evidence.Reading {
	var list []evidence.Reading
	for _, u := range []float64{-33, -27, -20, -14, -9, -5.5, 6, 8, 15, 22, 25, 31} {
		sin, cos := math.Sincos(u * math.Pi / 180)
		depth := geometry.Length(43*(1-cos) + 146 - math.Sqrt(146*146-43*43*sin*sin))
		if u > 0 {
			depth -= lash
		}
		list = append(list, evidence.Reading{
			Angle: Deg(top+u) + geometry.Angle(noise())*s.Protractor.Uncertainty(),
			Depth: depth + geometry.Length(noise())*s.Gauge.Uncertainty(), Turn: evidence.Forward,
		})
	}
	return list
}

// Quiet is no noise at all.
func Quiet() float64 { return 0 }

// Found is TDC by such readings.
func Found(t *testing.T, s evidence.Setup, read []evidence.Reading) tdc.Result {
	t.Helper()
	result, err := tdc.Find(s, evidence.Cylinder{Number: 1, Readings: read})
	require.NoError(t, err)
	return result
}

// PetrolFour is an engine that nobody stated an offset of.
var PetrolFour = evidence.Setup{Engine: evidence.Engine{Stroke: 86, Rod: 146, KnownTo: evidence.DefaultKnownTo(false)}}

// TwoCams is a drive with all that a layout has.
var TwoCams = mark.Drive{Layout: "two cams", CrankSprocket: 20, CrankWheel: "60-2", CrankPitches: 60, CrankWheelOn: "flywheel", FlywheelBolts: 6}

// One is a mark of 20 degrees on a member, against another.
func One(on, against string) mark.Mark {
	return mark.Mark{Name: "hole", On: on, Against: against, Certain: true,
		Off: &mark.Shift{Value: 20, Unit: mark.CrankDegrees, KnownTo: 0.1}, Limit: Deg(1), HasLimit: true}
}
