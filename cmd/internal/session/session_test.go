package session_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/job/notebook"
)

// A sitting from the first reading to the last, kept in a store that is no file:
// every answer counts the readings so far, and the end gives their TDC.
func TestSessionNeedsNoFile(t *testing.T) {
	s, store := sitting(false)
	s.Store, s.Files = nil, &desk{store: store, says: "The store was mended."}
	s.Job.ReadingsFiles = map[int]string{1: "here"}
	said, err := s.Open()
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "turn by hand only")
	require.Contains(t, words(said, session.Remark), "The store was mended.")
	require.Empty(t, words(said, session.Answer), "nothing was asked yet")
	for n, u := range []float64{-25, -16, -9, 8, 15, 24} {
		said, ended, err := s.Obey(reading(t, u) + " # note")
		require.NoError(t, err)
		require.False(t, ended)
		answer := words(said, session.Answer)
		require.True(t, strings.HasPrefix(answer, fmt.Sprintf("%3d  ", n+1)), answer)
		for line := range strings.Lines(answer) {
			require.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 60)
		}
		require.Equal(t, "note", store.readings[n].Note)
	}
	_, _, err = s.Obey("# new pointer")
	require.NoError(t, err)
	require.Equal(t, []string{"new pointer"}, store.remarks)
	said, ended, err := s.Obey("done")
	require.NoError(t, err)
	require.True(t, ended)
	require.Empty(t, words(said, session.Answer))
	said, err = s.End()
	require.NoError(t, err)
	var at, half float64
	_, text, _ := strings.Cut(words(said, session.Answer), "true TDC is at ")
	_, err = fmt.Sscanf(text, "%g ± %g deg", &at, &half)
	require.NoError(t, err)
	require.InDelta(t, 5, at, half, "no lash where some is expected is within the interval")
	require.Less(t, half, 0.36)
	require.NoError(t, s.Fault())
}

// What the store says, or cannot do, is said; a pipe ends there, and whoever is patient
// may type again.
func TestSessionSaysWhatTheStoreSays(t *testing.T) {
	s, store := sitting(false)
	_, err := s.Open()
	require.NoError(t, err)
	store.news = "Somebody else wrote here."
	said, _, err := s.Obey("list")
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "Somebody else wrote here.")
	store.fails = errors.New("the disk is full")
	for _, line := range []string{reading(t, -20), "# remark", "undo"} {
		_, _, err = s.Obey(line)
		require.ErrorIs(t, err, store.fails)
	}
	_, err = s.End()
	require.ErrorIs(t, err, store.fails)

	s.Patient = true
	said, ended, err := s.Obey(reading(t, -20))
	require.NoError(t, err)
	require.False(t, ended)
	require.Contains(t, words(said, session.Remark), "This was not kept: the disk is full")
	require.Empty(t, words(said, session.Answer), "what was not kept is not answered")
	require.False(t, store.taken)
	store.fails = &notebook.Emptied{File: "here", Had: 2}
	_, _, err = s.Obey(reading(t, -20))
	require.NoError(t, err)
	require.True(t, store.taken)
}

// Lines that were not understood, and readings that were lost, are faults; the worse
// one is told.
func TestSessionFaults(t *testing.T) {
	s, store := sitting(false)
	_, err := s.Open()
	require.NoError(t, err)
	said, _, err := s.Obey("hello")
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), `"hello" is not a reading`)
	require.ErrorIs(t, s.Fault(), session.ErrNotUnderstood)
	store.lost = 1
	require.ErrorIs(t, s.Fault(), session.ErrLost)
	said, _, err = s.Obey("help")
	require.NoError(t, err)
	require.Equal(t, session.Help, words(said, session.AsItStands))
	said, _, err = s.Obey("undo")
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "no reading to undo")
}

// The caution for turning back is said when it is asked for, once.
func TestSessionWarnsOnce(t *testing.T) {
	s, _ := sitting(true)
	_, err := s.Open()
	require.NoError(t, err)
	said, _, err := s.Obey("b")
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "turn back only where the maker allows it")
	require.Equal(t, "backward", s.Prompt())
	said, _, err = s.Obey("back")
	require.NoError(t, err)
	require.NotContains(t, words(said, session.Remark), "turn back only")
}

// The protractor is moved: TDC is that of the readings of the new set alone, each is
// kept with its set, and coming back goes on in the last one and says so.
func TestSessionOfSets(t *testing.T) {
	s, store := sitting(true)
	obey := func(line string) (remark, answer string) {
		said, _, err := s.Obey(line)
		require.NoError(t, err)
		return strings.Join(strings.Fields(words(said, session.Remark)), " "), strings.Join(strings.Fields(words(said, session.Answer)), " ")
	}
	_, err := s.Open()
	require.NoError(t, err)
	angles := []float64{-25, -16, -9, 8, 15, 24}
	for _, u := range angles {
		obey(reading(t, u))
	}
	remark, _ := obey("set 3")
	require.Contains(t, remark, "set 3: the readings so far are of set 1. Type set 1 to go on with it, or set 2 once the protractor is moved on the crank")
	remark, _ = obey("set 1")
	require.Contains(t, remark, "It is set 1 already.")
	remark, answer := obey("set 2")
	require.Contains(t, remark, "Readings are of set 2 from here on.")
	require.Contains(t, remark, "each mark: type mark with the same name.")
	require.Contains(t, answer, "6 readings, none in set 2. TDC needs at least 3 readings")
	remark, _ = obey("set 1") // nothing was read in set 2 yet
	require.Contains(t, remark, "Readings are of set 1 from here on.")
	require.NotContains(t, remark, "elsewhere")
	obey("set 2")
	for n, u := range angles {
		_, answer = obey(readingAt(t, 95, u))
		require.True(t, strings.HasPrefix(answer, fmt.Sprint(7+n)), answer)
		require.NotContains(t, answer, "does not fit")
		if n < 2 {
			require.Contains(t, answer, "TDC needs at least 3 readings")
		}
		require.Equal(t, 2, store.readings[6+n].Set)
	}
	require.Contains(t, answer, "TDC 9")
	require.Contains(t, answer, "moved")
	_, answer = obey("list")
	require.Contains(t, answer, "Set No. turn")
	require.Contains(t, answer, "1 6 forward 29")
	require.Contains(t, answer, "2 7 forward 70")
	_, answer = obey("undo")
	require.Contains(t, answer, "11 readings, 5 in set 2.")
	said, err := s.End()
	require.NoError(t, err)
	require.Regexp(t, `11 readings, 5 in set 2 in here: true TDC is at 9[45]\.`, strings.Join(strings.Fields(words(said, session.Answer)), " "))

	back := &session.Session{Job: s.Job, Number: 1, File: "here", Store: store, Ground: s.Ground, Width: 60}
	said, err = back.Open()
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "These readings go on in set 2, as the last one: type set 3 once the protractor is moved on the crank.")
	_, _, err = back.Obey(readingAt(t, 95, 24))
	require.NoError(t, err)
	require.Equal(t, 2, store.readings[11].Set)
	// through a pipe the lines below a set that is refused would count as another's
	for _, line := range []string{"set 4", "set", "set second"} {
		_, _, err = back.Obey(line)
		require.ErrorContains(t, err, "set", line)
	}
}

// Undone readings, and what another program wrote, take the set at hand with them.
func TestSetFollowsTheReadings(t *testing.T) {
	s, store := sitting(true)
	_, err := s.Open()
	require.NoError(t, err)
	for _, line := range []string{reading(t, -20), "set 2", reading(t, -20), "set 3"} {
		_, _, err = s.Obey(line)
		require.NoError(t, err)
	}
	said, _, err := s.Obey("undo")
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "Readings are of set 2 from here on: the last one is of set 1.")
	_, _, err = s.Obey(reading(t, 20))
	require.NoError(t, err)
	require.Equal(t, 2, store.readings[1].Set)
	store.readings[1].Set = 3
	said, err = s.End()
	require.NoError(t, err)
	require.Contains(t, words(said, session.Remark), "Readings are of set 3 from here on: the last one is of set 3.")
}

// Once the protractor is the limit it is said, with what makes the marks surer all the same.
func TestSessionSaysThatTheProtractorIsTheLimit(t *testing.T) {
	s, _ := sitting(true)
	_, err := s.Open()
	require.NoError(t, err)
	for _, set := range []int{1, 2} {
		heard := 0
		var wishes []string
		for _, turn := range []string{"f ", "b "} {
			for u := -28.5; u < 29; u += 3 {
				said, _, err := s.Obey(turn + readingAt(t, float64(5+90*(set-1)), u))
				require.NoError(t, err)
				answer := strings.Join(strings.Fields(words(said, session.Answer)), " ")
				if strings.Contains(answer, "Before the end read two early places again") {
					wishes = append(wishes, answer)
				}
				if strings.Contains(answer, "is now the limit") {
					heard++
					require.Contains(t, answer, "The protractor's own error of 0.25 deg is now the limit: more readings hardly help, a finer protractor does. For the marks another setting helps too: "+
						fmt.Sprintf("move the protractor on the crank by a good part of a turn, and read marks and piston again as set %d.", set+1))
				}
			}
		}
		require.Equal(t, 1, heard, "once a set")
		require.Len(t, wishes, 2, "of early readings to read again: when there are enough, and when the end is near")
		require.NotContains(t, wishes[0], "More readings will hardly help.")
		require.Contains(t, wishes[1], "More readings will hardly help.")
		_, _, err = s.Obey("set 2")
		require.NoError(t, err)
	}
}

// That the pointer moved is said at the reading after which it shows, once; and at the
// end two early places are asked for again.
func TestSessionSaysWhatMoved(t *testing.T) {
	s, store := sitting(false)
	_, err := s.Open()
	require.NoError(t, err)
	moved, typed, wished, wish := 0, 0, 0, ""
	type line struct {
		u    float64
		turn string
	}
	var lines []line
	for _, u := range []float64{-27, -22, -17, -12, -7, 7, 12, 17, 22, 27} {
		lines = append(lines, line{u, ""})
	}
	for _, u := range []float64{27, 22, 17, 12, 7, -7, -12, -17, -22, -27} {
		lines = append(lines, line{u, "b "})
	}
	last := ""
	for n, l := range lines {
		angle, depth, _ := strings.Cut(reading(t, l.u), " ")
		if n >= 10 { // it was knocked where the crank was turned back
			angle = fmt.Sprintf("%.2f", l.u+7)
		}
		said, _, err := s.Obey(l.turn + angle + " " + depth)
		require.NoError(t, err)
		last = strings.Join(strings.Fields(words(said, session.Answer)), " ")
		typed++
		if strings.Contains(last, "the protractor reads 2") && strings.Contains(last, "After reading 10 the protractor") {
			moved++
			require.Less(t, typed, 17, "soon after it was")
			require.Contains(t, last, "is the pointer loose")
			require.NotContains(t, last, "This reading does not fit")
			news := said[slices.IndexFunc(said, func(s session.Said) bool { return s.Kind == session.Answer })].News
			require.Contains(t, strings.Join(news, " "), "is the pointer loose", "for a screen that shows no answers")
		}
		if strings.Contains(last, "Before the end") {
			wished, wish = wished+1, last
		}
	}
	require.Equal(t, 1, moved)
	require.Equal(t, 1, wished, "once")
	// 338 and 343, as the protractor shows them since
	require.Regexp(t, `Before the end read two early places again, (339\.[6-9]|340\.[0-4]) turning forward and (344\.[6-9]|345\.[0-4]) turning forward`, wish)
	again, _, err := s.Obey("next")
	require.NoError(t, err)
	require.Contains(t, words(again, session.Answer), "Before the end", "asked for, it is said whenever")
	for _, u := range []float64{-27, -22} {
		_, depth, _ := strings.Cut(reading(t, u), " ")
		said, _, err := s.Obey(fmt.Sprintf("f %.2f %s", u+7, depth))
		require.NoError(t, err)
		last = words(said, session.Answer)
	}
	require.NotContains(t, last, "Before the end")
	require.Len(t, store.readings, 22)
}
