package tdc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// A fit that did not settle, readings that scatter beyond reason and an interval wider
// than ten degrees are no answers, and it is said which of the three it is.
func TestCannotTell(t *testing.T) {
	setup, read := lopsidedJob(t)
	a := solved(t, setup, read)
	sure := 9.9 * geometry.Degree
	require.Nil(t, a.cannotTell(sure))
	require.Equal(t, finding.TooVague{Expanded: 10.1 * geometry.Degree}, a.cannotTell(10.1*geometry.Degree))
	for _, status := range []fit.Status{fit.Stalled, fit.OutOfSteps, fit.NotANumber} {
		b := *a
		b.best.Status = status
		require.Equal(t, finding.NotSettled{Status: status.String()}, b.cannotTell(sure))
	}

	// a gauge said to be good to 0.02 mm that is wrong by millimetres each time
	for i := range read {
		read[i].Depth += geometry.Length(4 * math.Sin(float64(40*i*i)))
	}
	r, err := Find(setup, evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	require.IsType(t, finding.BeyondReason{}, r.CannotTell)
}
