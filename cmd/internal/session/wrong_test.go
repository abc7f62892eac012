package session_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/evidence"
)

// Wrong things typed at the bench, each after the readings 1 340 4.10 and 2 350 1.02, and
// what must be said. None of them changes a reading.
var wrongLines = []struct{ line, says string }{
	{"hello", `"hello" is not a reading: type an angle and a depth with a space between, such as 342.5 3.29, or help`},
	{"342.5", `"342.5" is one number: type an angle and a depth`},
	{"12 BTDC", "type an angle and a depth"},
	{"342.5 3.29 4", "is not a reading"},
	{"deep 3.2", "is not a reading"},
	{"34l.5 3.2", "is not a reading"},
	{"NaN 3", "is not a reading"},
	{"b b 342.5 3", "is not a reading"},
	{"-12 BTDC 3", "has both a minus sign and a side"},
	{"3600 1.1", "3600 is not on a protractor that wraps at 360: expected 0 to 360, or -180 to 180"},
	{"3425 1.1", "It was not kept. Did you mean 342.5? m takes 342.5 1.1."},
	{"342.5 -", "is not a reading"},
	{"fix", "fix goes with a reading's number and what is right: type for example fix 3 342.5 2.22; the list has the numbers"},
	{"fix 2", "fix goes with a reading's number"},
	{"fix two 342.5 2.22", "fix goes with a reading's number"},
	{"fix 2 342.5", "type an angle and a depth"},
	{"fix 9 342.5 2.22", "There is no reading 9: there are 2. Type list to see their numbers."},
	{"fix 2 1000 2.22", "1000 is not on a protractor"},
	{"strike", "strike goes with a reading's number: type for example strike 3"},
	{"strike 0", "strike goes with a reading's number"},
	{"strike 1 2", "strike goes with a reading's number"},
	{"strike 3", "There is no reading 3: there are 2."},
	{"undo 1", "undo goes alone, for the last thing done: type undo; strike takes a reading out by its number, as in strike 3"},
	{"redo", "There is nothing to redo"},
	{"done now", "done goes alone: type done, or help"},
	{"list 2", "list goes alone"},
	{"m", "Nothing is asked just now."},
	{"k", "Nothing is asked just now. Every reading is kept as it is typed; fix and strike put one right."},
	{"set", "set goes with its number, from 1 to 20"},
	{"set 5", "the readings so far are of set 1"},
	{"\x1b[A\x00", "is not a reading"},
}

// What is typed wrong is answered in words that say what to type, within 80 columns and 60,
// and nothing is kept of it.
func TestWrongLines(t *testing.T) {
	for _, w := range wrongLines {
		s, store := sitting(true)
		_, err := s.Open()
		require.NoError(t, err)
		for _, line := range []string{"340 4.10", "350 1.02"} {
			said(t, s, line)
		}
		before := append([]evidence.Reading(nil), store.readings...)
		all, ended, err := s.Obey(w.line)
		require.NoError(t, err, w.line)
		require.False(t, ended, w.line)
		text := words(all, session.Remark)
		require.Contains(t, strings.Join(strings.Fields(text), " "), w.says, w.line)
		require.True(t, utf8.ValidString(text), w.line)
		require.NotContains(t, text, "\x1b", w.line)
		require.Equal(t, before, store.readings, w.line)
	}
}

// An angle that is not on the scale is not kept, and m takes it with its decimal point.
func TestAngleOffTheScale(t *testing.T) {
	s, store := sitting(true)
	_, err := s.Open()
	require.NoError(t, err)
	_, remark := said(t, s, "3425 3.29")
	require.NotContains(t, remark, "Did you mean", "there is nothing to go by yet")
	said(t, s, "340 4.1")
	said(t, s, "3425 3.29 # here")
	said(t, s, "m")
	require.Len(t, store.readings, 2)
	require.InDelta(t, 342.5, store.readings[1].Angle.Degrees(), 1e-9)
	require.Equal(t, "here", store.readings[1].Note)
	_, remark = said(t, s, "3475 2.1")
	require.Contains(t, remark, "Did you mean 347.5?")
	said(t, s, "347.5 2.1") // the line as it should be answers it too
	said(t, s, "m")
	require.Len(t, store.readings, 3)
	_, remark = said(t, s, "9999 2.1")
	require.NotContains(t, remark, "Did you mean", "far from where the crank is")
}

// The angle that was meant takes it, typed as it was shown, its side too.
func TestAngleOffTheScaleIsTypedAsShown(t *testing.T) {
	s, store := sitting(true)
	s.Job.Setup.Protractor.Scale = evidence.Quadrants
	_, err := s.Open()
	require.NoError(t, err)
	said(t, s, "20 BTDC 4.1")
	_, remark := said(t, s, "175 btdc 3.29")
	require.Contains(t, remark, "Did you mean 17.5 BTDC?")
	said(t, s, "17.5 BTDC")
	require.Len(t, store.readings, 2)
	require.InDelta(t, -17.5, store.readings[1].Angle.Signed().Degrees(), 1e-9)
}
