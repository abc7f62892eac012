package notebook_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/sheet"
)

// What is done with a readings file works on a plain system as well.
func TestNotebookOnAPlainSystem(t *testing.T) {
	disktest.OnAPlainSystem(func() {
		TestAddKeepsTheFilesOwnForm(t)
		TestStrikeAndRevive(t)
		TestFixKeepsTheFilesOwnForm(t)
		TestCutShort(t)
	})
}

// Where no program can be kept from the file, one that saves it now and then, as people
// do, loses nothing: each reading is in the file or was said to be gone. Between looking
// and trading places there is a moment in which a plain system may lose a save; so
// nothing is struck out here.
func TestSavesOnAPlainSystem(t *testing.T) {
	disktest.OnAPlainSystem(func() {
		n, path, _ := openNotebook(t, "angle,depth,turn,note\n340,4,,edit 0\n")
		defer n.Close()
		said := ""
		for i := range 40 {
			text := content(t, path)
			edited := strings.Replace(text, "edit ", "edit 1", 1)
			switch i % 4 {
			case 1:
				require.NoError(t, os.WriteFile(path, []byte(edited), 0o600))
			case 3:
				require.NoError(t, os.WriteFile(path+"~", []byte(edited), 0o600))
				require.NoError(t, os.Rename(path+"~", path))
			}
			_, err := n.Add(sheet.Entry{Angle: "350", Depth: "1." + strings.Repeat("1", i+1), Turn: evidence.Forward})
			require.NoError(t, err)
			said += n.News()
		}
		require.Empty(t, said)
		require.Equal(t, 41, strings.Count(content(t, path), "\n")-1)
		require.Equal(t, 1, strings.Count(content(t, path), "edit "+strings.Repeat("1", 20)+"0"))
	})
}

// A reading that another program took out is said once, and one that it took out and put
// back is not said.
func TestTakenOut(t *testing.T) {
	n, path, _ := openNotebook(t, "angle,depth\n340,4\n")
	defer n.Close()
	before := content(t, path)
	_, err := n.Add(sheet.Entry{Angle: "350.5", Depth: "1.25", Turn: evidence.Forward})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, []byte(before), 0o600))
	_, err = n.Readings()
	require.NoError(t, err)
	require.Equal(t, path+" was saved by another program, and has one reading where it had 2.\n"+
		path+" was saved by another program, and the reading 350.5 1.25, which was kept here, is no longer in it. Type it again where it was right.", n.News())
	require.Equal(t, 1, n.Lost())
	_, err = n.Readings()
	require.NoError(t, err)
	require.Empty(t, n.News())
	_, err = n.Add(sheet.Entry{Angle: "350.5", Depth: "1.25", Turn: evidence.Forward})
	require.NoError(t, err)
	require.Empty(t, n.News())
}

// Somebody who means to go on in a file that was emptied can.
func TestTakeAsIs(t *testing.T) {
	n, path, _ := openNotebook(t, "angle,depth\n340,4\n")
	defer n.Close()
	require.NoError(t, os.Remove(path))
	began := time.Now()
	_, err := n.Add(sheet.Entry{Angle: "350", Depth: "1", Turn: evidence.Forward})
	var emptied *notebook.Emptied
	require.ErrorAs(t, err, &emptied)
	require.True(t, emptied.Gone)
	require.Greater(t, time.Since(began), 500*time.Millisecond, "an editor may be saving it")
	require.NoFileExists(t, path)
	n.TakeAsIs()
	readings, err := n.Add(sheet.Entry{Angle: "350", Depth: "1", Turn: evidence.Forward})
	require.NoError(t, err)
	require.Len(t, readings, 1)
	require.FileExists(t, path)
}
