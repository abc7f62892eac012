package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What a rehearsal wrote away is what its job holds: a pin as late as was asked for, a
// mistyped reading on the line that find names, with what it says and what it should,
// and a gauge that leans by 15 deg and so shows 1/cos 15 = 1.0353 of what there is.
func TestTheAnswerIsTheJobs(t *testing.T) {
	lesson := filepath.Join(t.TempDir(), "lesson")
	answerOf(t, "rehearse", lesson, "--seed", "7", "--typo", "1", "--tilt", "15", "--turn", "both", "--pin", "3")
	said := answerOf(t, "find", filepath.Join(lesson, "job.toml"))
	require.Regexp(t, `pin: (2\.[6-9]|3\.[0-4])\d* ± 0\.\d+ deg late`, said) // read to half a degree
	line := numberIn(t, `line (\d+) \([^)]*\) does not fit`, said)
	answer := mustRead(t, filepath.Join(lesson, "answer.toml"))
	require.Equal(t, line, numberIn(t, `(?s)\[\[typo\]\]\s+line = (\d+)`, answer))
	typed, meant := numberIn(t, `(?m)^depth_mm = (\S+)`, answer), numberIn(t, `(?m)^should_be_mm = (\S+)`, answer)
	row := strings.Split(mustRead(t, filepath.Join(lesson, "cylinder-1.csv")), "\n")[int(line)-1]
	require.Contains(t, row, fmt.Sprintf(",%.2f,", typed))
	marked := answerOf(t, "rehearse", "--check", lesson, "--tdc", "0")
	require.Contains(t, marked, fmt.Sprintf("line %.0f says %.2f and should be %.2f.", line, typed, meant))
	require.Contains(t, marked, "It leans by 15 deg and shows 3.5 % too much")
}

// While three readings tell nothing, jot asks for the next without turning back.
func TestJotsOpeningIsForward(t *testing.T) {
	jobFile, _ := newJob(t)
	out, errs, err := jotting(t, jobFile, "350 5", "350 5", "350 5", "350 5")
	require.NoError(t, err)
	require.Contains(t, out, "TDC cannot be determined yet")
	require.NotContains(t, out, "turning backward")
	require.NotContains(t, errs, "turn back only where")
}
