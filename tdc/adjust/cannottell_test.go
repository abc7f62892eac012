package adjust

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// A fit that did not settle, readings that scatter beyond reason and an interval wider
// than ten degrees are no answers, and it is said which of the three it is.
func TestCannotTell(t *testing.T) {
	setup, read := lopsidedJob(t)
	a := solved(t, setup, read)
	sure := 9.9 * geometry.Degree
	require.Nil(t, a.CannotTell(sure))
	require.Equal(t, finding.TooVague{Expanded: 10.1 * geometry.Degree}, a.CannotTell(10.1*geometry.Degree))
	for _, status := range []fit.Status{fit.Stalled, fit.OutOfSteps, fit.NotANumber} {
		b := *a
		b.best.Status = status
		require.Equal(t, finding.NotSettled{Status: status.String()}, b.CannotTell(sure))
	}

	// a gauge said to be good to 0.02 mm that is wrong by millimetres each time
	for i := range read {
		read[i].Depth += geometry.Length(4 * math.Sin(float64(40*i*i)))
	}
	require.IsType(t, finding.BeyondReason{}, solved(t, setup, read).CannotTell(sure))
}
