package session_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/session"
	"evendrop/tdc/job"
)

// Who asks what may be answered is told, and asked again.
func TestQuestionsTellWhatMayBeAnswered(t *testing.T) {
	s, _ := atBench(t, engine)
	types(t, s, "mark pin")
	for _, line := range []string{"?", "help", "back"} {
		said := types(t, s, line)
		require.Contains(t, said, "cancel leaves the mark out", line)
		require.Contains(t, said, "What does pin sit on", line)
	}
}

// A mark is kept as far as it was typed, and what is missing is asked for; what it comes
// to is said at once, and what find says at the end is the same.
func TestMarksAreJudgedAtOnce(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, sides(t)...)
	said := types(t, s, "mark locking pin hole on flywheel read 9.1 should be 0")
	require.Contains(t, said, "How far may it be off either way")
	said = types(t, s, "1")
	require.Contains(t, said, "Kept: mark locking pin hole.")
	require.Contains(t, said, "The only mark (locking pin hole) is outside its limit")
	require.Contains(t, fileOf(t, file), "[[mark]]\nname = \"locking pin hole\"\non = \"flywheel\"\nread = [9.1]\nafter_reading = 8\nshould_be = 0\nlimit = 1\n")
	all, err := s.End()
	require.NoError(t, err)
	j, err := job.Open(file)
	require.NoError(t, err)
	f, err := find.Of(j)
	require.NoError(t, err)
	require.Contains(t, unwrapped(words(all, session.Answer)), f.Headline())
	types(t, s, "undo")
	j, err = job.Open(file)
	require.NoError(t, err)
	require.Empty(t, j.Marks)
}

// A question can be left, and what is no answer is asked again.
func TestQuestionsAreLeft(t *testing.T) {
	s, file := atBench(t, engine)
	types(t, s, "mark pin")
	said := types(t, s, "")
	require.Contains(t, said, "This is needed")
	require.Contains(t, said, "What does pin sit on")
	all, _, err := s.Obey("cancel")
	require.NoError(t, err)
	require.Contains(t, words(all, session.Remark), "Left out: the mark is not kept.")
	types(t, s, reading(t, -25))
	require.Equal(t, engine, fileOf(t, file))
}

// Through a pipe nobody can be asked: the usual answers are taken, and said, and what has
// none is not kept.
func TestMarksThroughAPipe(t *testing.T) {
	s, file := atBench(t, engine)
	s.Patient = false
	said := types(t, s, "mark locking pin hole; flywheel; 6.0 6.0 6.5")
	require.Contains(t, said, "Where should it be, in crank degrees after TDC of cylinder 1, such as 0, -12.5, 12 BTDC? Or unknown. 0, since nothing is said.")
	require.Contains(t, fileOf(t, file), "read = [6, 6, 6.5]\nafter_reading = 0\nshould_be = 0\n")
	for _, line := range []string{"mark pin; flywheel", "cylinder 3"} {
		all, _, err := s.Obey(line)
		require.NoError(t, err)
		require.Contains(t, unwrapped(words(all, session.Remark)), "is not kept: it lacks an answer.")
		require.Contains(t, unwrapped(words(all, session.Remark)), "Type it in the same line.")
	}
	require.ErrorIs(t, s.Fault(), session.ErrNotUnderstood)
	require.NotContains(t, fileOf(t, file), "cylinder-3")
}
