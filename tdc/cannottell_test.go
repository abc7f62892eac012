package tdc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit"
	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// A fit that did not settle, readings that scatter beyond reason and an interval wider
// than ten degrees are no answers, and it is said which of the three it is.
func TestCannotTell(t *testing.T) {
	setup, read := lopsidedJob(t)
	a := solved(t, setup, read)
	sure := gum.Estimate{Expanded: 9.9 * geometry.Degree}
	require.Empty(t, a.cannotTell(sure))
	require.Contains(t, a.cannotTell(gum.Estimate{Expanded: 10.1 * geometry.Degree}), "anywhere within 10 deg")
	for _, status := range []fit.Status{fit.Stalled, fit.OutOfSteps, fit.NotANumber} {
		b := *a
		b.best.Status = status
		require.Contains(t, b.cannotTell(sure), "did not settle")
	}

	// a gauge said to be good to 0.02 mm that is wrong by millimetres each time
	for i := range read {
		read[i].Depth += geometry.Length(4 * math.Sin(float64(40*i*i)))
	}
	r, err := Find(setup, evidence.Cylinder{Readings: read})
	require.NoError(t, err)
	require.Contains(t, r.CannotTell, "times as much as the instruments explain")
}
