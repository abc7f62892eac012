package session_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// said is what a line is answered with, and what is remarked beside, each on one line.
func said(t *testing.T, s *session.Session, line string) (answer, remark string) {
	t.Helper()
	all, _, err := s.Obey(line)
	require.NoError(t, err)
	flat := func(kind session.Kind) string { return strings.Join(strings.Fields(words(all, kind)), " ") }
	return flat(session.Answer), flat(session.Remark)
}

// depths are those of the readings that count.
func depths(store *memory) (list []float64) {
	for _, r := range store.readings {
		list = append(list, float64(r.Depth))
	}
	return list
}

// Whatever was done last is undone first, and done again the other way round; each time
// it is said what.
func TestUndoAndRedo(t *testing.T) {
	s, store := sitting(true)
	_, err := s.Open()
	require.NoError(t, err)
	for _, line := range []string{"340 4 # first", "341 3.9", "b 30 4.5", "fix 1 340 4.1", "strike 2"} {
		said(t, s, line)
	}
	require.Equal(t, []float64{4.1, 4.5}, depths(store))
	require.Equal(t, "first", store.readings[0].Note, "a note stays where none is typed")
	undone := []struct {
		says string
		left []float64
	}{
		{"Undone: strike 2, 341 3.9, turned forward.", []float64{4.1, 3.9, 4.5}},
		{"Undone: fix 1, of 340 4, turned forward.", []float64{4, 3.9, 4.5}},
		{"Undone: reading 30 4.5, turned backward.", []float64{4, 3.9}},
		{"Undone: reading 341 3.9, turned forward.", []float64{4}},
	}
	for _, u := range undone {
		answer, _ := said(t, s, "undo")
		require.Contains(t, answer, u.says)
		require.Contains(t, answer, "Next:")
		require.Equal(t, u.left, depths(store), u.says)
	}
	require.Equal(t, "forward", s.Prompt(), "as in the reading before")
	for i, want := range [][]float64{{4, 3.9}, {4, 3.9, 4.5}, {4.1, 3.9, 4.5}, {4.1, 4.5}} {
		answer, _ := said(t, s, "redo")
		require.Contains(t, answer, strings.Replace(undone[3-i].says, "Undone", "Done again", 1))
		require.Equal(t, want, depths(store))
	}
	require.Equal(t, "backward", s.Prompt())
	_, remark := said(t, s, "redo")
	require.Contains(t, remark, "There is nothing to redo")
	said(t, s, "undo")
	said(t, s, "29 4.2")
	_, remark = said(t, s, "redo")
	require.Contains(t, remark, "There is nothing to redo", "once something else was typed")
}

// A new sitting's first undo takes back the last reading, and goes on from there.
func TestUndoInANewSitting(t *testing.T) {
	s, store := sitting(true)
	for _, line := range []string{"b 341 4", "340 3.9"} {
		said(t, s, line)
	}
	next := &session.Session{Job: s.Job, Number: 1, File: "here", Store: store, Ground: s.Ground, Width: 60}
	opening, err := next.Open()
	require.NoError(t, err)
	require.Contains(t, strings.Join(strings.Fields(words(opening, session.Remark)), " "), "Going on turning backward, as in the last reading: type f or b first when it is the other way.")
	said(t, next, "undo")
	require.Equal(t, []float64{4}, depths(store))
	said(t, next, "undo")
	require.Empty(t, store.readings)
	_, remark := said(t, next, "undo")
	require.Contains(t, remark, "There is no reading to undo.")
	said(t, next, "redo")
	said(t, next, "redo")
	require.Equal(t, []float64{4, 3.9}, depths(store))
}

// A correction that another program came between is said, changes nothing, and is a fault;
// what was done before it can still be undone.
func TestUndoBesideAnotherProgram(t *testing.T) {
	s, store := sitting(false)
	said(t, s, "340 4")
	said(t, s, "341 3.9")
	store.readings = store.readings[:1]
	answer, remark := said(t, s, "undo")
	require.Contains(t, answer, "Nothing was changed. One reading.")
	require.Contains(t, remark, sheet.ErrGone.Error())
	require.ErrorIs(t, s.Fault(), session.ErrNotUnderstood)
	said(t, s, "undo")
	require.Empty(t, store.readings)
}

// A fix keeps turn, set and note unless others are typed. Of the last reading its turn is
// that of the next ones too.
func TestFixKeeps(t *testing.T) {
	s, store := sitting(true)
	_, err := s.Open()
	require.NoError(t, err)
	for _, line := range []string{"340 4 # wobbly", "set 2", "b 30 4.5", "29 4.2", "fix 1 341 3.9", "fix 2 f 31 4.6 # firm"} {
		said(t, s, line)
	}
	first, second := store.readings[0], store.readings[1]
	require.Equal(t, []any{evidence.Forward, 1, "wobbly", evidence.Forward, 2, "firm"}, []any{first.Turn, first.Set, first.Note, second.Turn, second.Set, second.Note})
	require.Equal(t, "backward", s.Prompt())
	answer, remark := said(t, s, "fix 3 f 29 4.2")
	require.Contains(t, answer, "Reading 3 was 29 4.2, turned backward.")
	require.Contains(t, remark, "Turning forward, as in the reading before.")
	require.Equal(t, "forward", s.Prompt())
}
