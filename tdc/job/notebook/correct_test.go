package notebook_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/sheet"
)

// strike makes a comment of the i-th reading.
func strike(t *testing.T, n *notebook.Notebook, i int, why string) sheet.Corrected {
	t.Helper()
	readings, err := n.Readings()
	require.NoError(t, err)
	done, left, err := n.Correct(sheet.Correction{Strike: &readings[i], Why: why})
	require.NoError(t, err)
	require.Len(t, left, len(readings)-1)
	return done
}

// What was taken back stays in the file as a comment, and counts again byte for byte.
func TestStrikeAndRevive(t *testing.T) {
	const before = "angle,depth,note\r\n340,4,\r\n# between\n341,3.9,\"a\nb\"\r\n# below\r\n341, 3.9 ,\n"
	n, path, _ := openNotebook(t, before)
	defer n.Close()
	done := strike(t, n, 1, "undone")
	require.Equal(t, "341,3.9,\"a\nb\"", done.Struck.Row)
	require.Nil(t, done.Counts)
	require.Equal(t, "angle,depth,note\r\n340,4,\r\n# between\n# undone: 341,3.9,\"a\n# b\"\r\n# below\r\n341, 3.9 ,\n", content(t, path))
	done, readings, err := n.Correct(sheet.Correction{Revive: done.Struck})
	require.NoError(t, err)
	require.Len(t, readings, 3)
	require.Equal(t, readings[1], *done.Counts)
	require.Equal(t, before, content(t, path))
	for range 3 {
		strike(t, n, 0, "struck")
	}
	readings, err = n.Add(sheet.Entry{Angle: "1", Depth: "2", Turn: evidence.Forward})
	require.NoError(t, err)
	require.Len(t, readings, 1)
}

// A row is typed anew in the file's own form: what it was stands above it as a comment,
// its other fields, and all other rows, comments and line ends stay.
func TestFixKeepsTheFilesOwnForm(t *testing.T) {
	forward, back := sheet.Entry{Angle: "342.5", Depth: "3.29", Turn: evidence.Forward}, sheet.Entry{Angle: "342,5", Depth: "3,29", Turn: evidence.Backward}
	for _, c := range []struct {
		name, before string
		entry        sheet.Entry
		after        string
	}{
		{"plain", "angle,depth\n340,4\n342.5,32.9\n343,3\n", forward, "angle,depth\n340,4\n# replaced: 342.5,32.9\n342.5,3.29\n343,3\n"},
		{"the last line has no end", "angle,depth\n340,4\n342.5,32.9", forward, "angle,depth\n340,4\n# replaced: 342.5,32.9\n342.5,3.29"},
		{"mark, semicolons, line ends mixed", "\ufeffdepth;sweep;angle;turn\r\n4,1;one;340;\n# c\r\n32,9;two; 342,5;\r\n3;;343;\n# d", back,
			"\ufeffdepth;sweep;angle;turn\r\n4,1;one;340;\n# c\r\n# replaced: 32,9;two; 342,5;\r\n3,29;two;342,5;backward\r\n3;;343;\n# d"},
		{"old line ends", "angle,depth\r340,4\r342.5,32.9\r", forward, "angle,depth\r340,4\r# replaced: 342.5,32.9\r342.5,3.29\r"},
		{"a turn column is added", "angle,depth\r\n340,4\r\n342.5,32.9\n343,3\r\n", back,
			"angle,depth,turn\r\n340,4,\r\n# replaced: 342.5,32.9,\n342.5,3.29,backward\n343,3,\r\n"},
		{"a note of two lines", "angle,depth,note\r\n340,4,\n342.5,32.9,\"a\r\nb\"\n343,3,\r\n", sheet.Entry{Depth: "3.29"},
			"angle,depth,note\r\n340,4,\n# replaced: 342.5,32.9,\"a\r\n# b\"\n342.5,3.29,\"a\nb\"\n343,3,\r\n"},
	} {
		n, path, _ := openNotebook(t, c.before)
		readings, err := n.Readings()
		require.NoError(t, err, c.name)
		done, after, err := n.Correct(sheet.Correction{Strike: &readings[1], Why: "replaced", Type: &c.entry})
		require.NoError(t, err, c.name)
		require.Equal(t, c.after, content(t, path), c.name)
		require.Len(t, after, len(readings), c.name)
		require.Equal(t, after[1], *done.Counts, c.name)
		if c.entry.Turn != 0 {
			require.Equal(t, c.entry.Turn, after[1].Turn, c.name)
		}
		// and back again: the new row is the comment then
		_, again, err := n.Correct(sheet.Correction{Strike: done.Counts, Why: "undone", Revive: done.Struck})
		require.NoError(t, err, c.name)
		require.Equal(t, unplaced(readings), unplaced(again), c.name)
		lines := strings.FieldsFunc(c.before, func(r rune) bool { return r == '\r' || r == '\n' })
		require.Contains(t, content(t, path), strings.TrimPrefix(lines[len(lines)-1], "\ufeff"), c.name)
		require.Contains(t, content(t, path), "# undone: ", c.name)
		n.Close()
	}
}

// unplaced is readings without their lines.
func unplaced(readings []evidence.Reading) []evidence.Reading {
	readings = slices.Clone(readings)
	for i := range readings {
		readings[i].Line = 0
	}
	return readings
}

// A row that another program took out or changed is not struck, and a comment that it
// took out does not count again; nothing is written then. Where a row only moved, it is
// found.
func TestCorrectionsBesideAnEditor(t *testing.T) {
	n, path, _ := openNotebook(t, "angle,depth\n340,4\n341,3.9\n342,3.8\n")
	defer n.Close()
	readings, err := n.Readings()
	require.NoError(t, err)
	const edited = "angle,depth\n342,3.8\n# mine\n340,4\n342,3.8\n341,3.95\n"
	require.NoError(t, os.WriteFile(path, []byte(edited), 0o600))
	_, _, err = n.Correct(sheet.Correction{Strike: &readings[1], Why: "struck"})
	require.ErrorIs(t, err, sheet.ErrGone)
	require.Equal(t, edited, content(t, path))
	done, _, err := n.Correct(sheet.Correction{Strike: &readings[2], Why: "struck"})
	require.NoError(t, err)
	require.Equal(t, "angle,depth\n342,3.8\n# mine\n340,4\n# struck: 342,3.8\n341,3.95\n", content(t, path), "the nearest of its kind")

	const gone = "angle,depth\n341,3.95\n340,4\n"
	require.NoError(t, os.WriteFile(path, []byte(gone), 0o600))
	_, _, err = n.Correct(sheet.Correction{Revive: done.Struck})
	require.ErrorIs(t, err, sheet.ErrGone)
	const swapped = "depth,angle\n# struck: 342,3.8\n4,320\n"
	require.NoError(t, os.WriteFile(path, []byte(swapped), 0o600))
	_, _, err = n.Correct(sheet.Correction{Revive: done.Struck})
	require.ErrorIs(t, err, sheet.ErrGone, "it would be another reading under that header")
	require.Equal(t, swapped, content(t, path))
	const wider = "angle,depth,turn,note\n# struck: 342,3.8\n320,4,,\n"
	require.NoError(t, os.WriteFile(path, []byte(wider), 0o600))
	_, _, err = n.Correct(sheet.Correction{Revive: done.Struck})
	require.NoError(t, err)
	require.Equal(t, "angle,depth,turn,note\n342,3.8,,\n320,4,,\n", content(t, path))
}

// A reading that was typed here and struck here is not said to be lost.
func TestStruckIsNotLost(t *testing.T) {
	n, path, _ := openNotebook(t, "angle,depth\n340,4\n")
	defer n.Close()
	readings, err := n.Add(sheet.Entry{Angle: "341", Depth: "3.9", Turn: evidence.Forward})
	require.NoError(t, err)
	done, readings, err := n.Correct(sheet.Correction{Strike: &readings[1], Why: "replaced", Type: &sheet.Entry{Angle: "341", Depth: "3.8", Turn: evidence.Forward}})
	require.NoError(t, err)
	_, err = n.Readings()
	require.NoError(t, err)
	require.Zero(t, n.Lost())
	require.NoError(t, os.WriteFile(path, []byte("angle,depth\n340,4\n"), 0o600))
	_, err = n.Readings()
	require.NoError(t, err)
	require.Equal(t, 1, n.Lost(), "the fixed one")
	_, _, err = n.Correct(sheet.Correction{Strike: done.Counts, Why: "struck"})
	require.ErrorIs(t, err, sheet.ErrGone)
	require.Len(t, readings, 2)
}
