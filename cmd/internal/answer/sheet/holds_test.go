package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// A tooth is told of a mark only where its own interval holds it; 360/21 is 17.14 deg.
func TestHolds(t *testing.T) {
	tooth := finding.WholeSteps{Count: 1, Steps: finding.Steps{Step: finding.Tooth, InTurn: 21}}
	for off, want := range map[float64]bool{17.1: true, -17.1: true, 16.9: true, 16.5: false, 17.8: false, 0.2: false} {
		e := gum.Estimate{Angle: geometry.Angle(off) * geometry.Degree, Expanded: 0.3 * geometry.Degree}
		require.Equal(t, want, holds(e, tooth), "%g", off)
	}
}
