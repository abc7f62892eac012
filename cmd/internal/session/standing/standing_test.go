package standing

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
)

// TDC moves as the protractor shows it while readings are typed: by the sign with which
// its numbers grow.
func TestChangesGoAsTheNumbersDo(t *testing.T) {
	for _, p := range answertest.Scales() {
		sign := "+"
		if answertest.Falls(p) {
			sign = "-"
		}
		require.Contains(t, standingAt(t, p, 0.3).state(standingAt(t, p, -0.2)), "moved "+sign+"0.5",
			fmt.Sprintf("wraps %d counts %d sides %v", p.Scale, p.Sense, p.Sides))
	}
}

// standingAt is a job whose readings put TDC at a crank angle, deg.
func standingAt(t *testing.T, p evidence.Protractor, at float64) State {
	t.Helper()
	setup := answertest.Setup()
	setup.Protractor = p
	result := answertest.Result(t, setup, at)
	return State{Job: job.Job{Setup: setup}, Result: &result}
}
