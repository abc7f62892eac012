package session_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Where another cylinder's readings were written with BTDC and ATDC, the protractor is shown so
// for this one too, as find shows it, whichever of the two is read.
func TestAngleShownAsAnotherCylinderIsWritten(t *testing.T) {
	const deg = geometry.Degree
	for _, sided := range []bool{false, true} {
		s, store := sitting(true)
		s.Job.Setup.Protractor.Scale = evidence.Halves
		store.setup = s.Job.Setup
		other := evidence.Cylinder{Number: 4, Readings: []evidence.Reading{{Angle: -20 * deg, Depth: 2, Turn: evidence.Forward}}}
		if sided {
			other.Readings[0].Side = evidence.BTDC
		}
		s.Job.Cylinders = append(s.Job.Cylinders, other)
		_, err := s.Open()
		require.NoError(t, err)
		var answer string
		for _, u := range []float64{-20, -12, 12, 20} {
			answer, _ = said(t, s, reading(t, u))
		}
		if sided {
			require.Contains(t, answer, "ATDC")
		} else {
			require.NotContains(t, answer, "ATDC")
		}
	}
}
