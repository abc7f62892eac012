package interview_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/interview"
)

func askingAgain() *interview.Interview {
	return interview.Again(interview.Facts{Unit: "mm"}, []int{1, 2})
}

// A folder that holds a job: read on, add a cylinder with its throw, or another gauge.
func TestAgain(t *testing.T) {
	for _, c := range []struct {
		lines  []string
		number int
		beside interview.Beside
	}{
		{[]string{""}, 0, interview.Beside{}},
		{[]string{"read"}, 0, interview.Beside{}},
		{[]string{"cylinder", ""}, 3, interview.Beside{}},
		{[]string{"c", "cylinder 4"}, 4, interview.Beside{}},
		{[]string{"a cylinder", "6"}, 6, interview.Beside{}},
		{[]string{"gauge", ""}, 0, interview.Beside{Stop: true}},
		{[]string{"gauge", "dwell and stop"}, 0, interview.Beside{Stop: true, Dwell: true}},
		{[]string{"a second gauge", "rod"}, 0, interview.Beside{Views: true}},
		{[]string{"borescope"}, 0, interview.Beside{Views: true}},
		{[]string{"stop"}, 0, interview.Beside{Stop: true}},
	} {
		i := askingAgain()
		answered(t, i, c.lines...)
		_, more := i.Question()
		require.False(t, more, c.lines)
		f := i.Facts()
		require.Equal(t, c.number, f.Added.Number, c.lines)
		require.Equal(t, c.beside, f.Beside, c.lines)
	}
}

// What is wrong there, and what to type.
func TestAgainWrong(t *testing.T) {
	for _, c := range []struct {
		lines       []string
		typed, says string
	}{
		{nil, "yes please", "type read, cylinder or gauge"},
		{nil, "2", "type read, cylinder or gauge"},
		{[]string{"cylinder"}, "2", "The job has a cylinder 2: type another number"},
		{[]string{"cylinder"}, "two", "type one from 1 to 99"},
		{[]string{"cylinder"}, "100", "type one from 1 to 99"},
		{[]string{"gauge"}, "something", "type dial, rod, borescope, stop or dwell"},
	} {
		i := askingAgain()
		answered(t, i, c.lines...)
		before := must(i.Question())
		reply := i.Answer(c.typed)
		require.False(t, reply.Taken, c.typed)
		require.Contains(t, reply.Says, c.says, c.typed)
		require.Equal(t, before, must(i.Question()))
		require.Greater(t, len(i.Answer("?").Says), 40)
	}
}
