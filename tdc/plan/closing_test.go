package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

// At the end the first two readings are asked for again, but for one that was misread;
// once they were taken, by a degree or so and turned as before, nothing is.
func TestClosing(t *testing.T) {
	result := func(read ...adjust.Judged) tdc.Result { return tdc.Result{Readings: read} }
	at := func(degrees float64, turn evidence.TurnDirection) adjust.Judged {
		return adjust.Judged{Reading: evidence.Reading{Angle: geometry.Angle(degrees) * deg, Turn: turn}}
	}
	forward, back := evidence.Forward, evidence.Backward
	read := []adjust.Judged{at(340, forward), at(348, forward), at(10, forward), at(20, forward), at(21, back), at(9, back), at(347, back), at(341, back)}
	again := plan.Closing(result(read...))
	require.Equal(t, []evidence.Reading{read[0].Reading, read[1].Reading}, again)
	read[0].Suspect = true
	require.Equal(t, []evidence.Reading{read[1].Reading, read[2].Reading}, plan.Closing(result(read...)))
	read[0].Suspect = false
	require.Len(t, plan.Closing(result(append(read, at(340.5, forward))...)), 2, "one alone is not told from a reading mistyped")
	require.Empty(t, plan.Closing(result(append(read, at(340.5, forward), at(347.5, forward))...)))
	require.Len(t, plan.Closing(result(append(read, at(340.5, back), at(347.5, back))...)), 2, "turned as before")
	require.Empty(t, plan.Closing(result(read[:4]...)))

	p, err := plan.Best(setup(evidence.Dial), plan.Ground{Deepest: 8}, 12)
	require.NoError(t, err)
	require.Equal(t, p.Points[:2], p.Closing())
}
