package job_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
)

// everywhere runs a test with what this system can do, and without.
func everywhere(t *testing.T, test func(t *testing.T)) {
	t.Run("this system", test)
	t.Run("a plain system", func(t *testing.T) { job.OnAPlainSystem(func() { test(t) }) })
}

// Files are written together or not at all: whichever of them cannot come to its place,
// the others are as they were, and nothing is left over.
func TestTogether(t *testing.T) {
	everywhere(t, func(t *testing.T) {
		for _, bad := range []int{-1, 0, 1, 2} {
			folder := inFolder(t, map[string]string{"old": "old", "answer": "old answer"})
			at := func(i int, name string) string {
				if i == bad {
					name = strings.Repeat("n", 256) // only giving it its name fails
				}
				return filepath.Join(folder, name)
			}
			var together job.Together
			together.Write(at(0, "new"), []byte("1"), false)
			together.Write(at(1, "old"), []byte("2"), true)
			together.WriteAfter(at(2, "answer"), []byte("3"), true)
			err := together.Done()
			if bad < 0 {
				require.NoError(t, err)
				onlyFiles(t, folder, "answer", "new", "old")
				for name, want := range map[string]string{"new": "1", "old": "2", "answer": "3"} {
					requireText(t, want, filepath.Join(folder, name))
				}
				continue
			}
			require.ErrorContains(t, err, "cannot be written: ")
			require.NotContains(t, err.Error(), ".tmp")
			onlyFiles(t, folder, "answer", "old")
			requireText(t, "old", filepath.Join(folder, "old"))
			requireText(t, "old answer", filepath.Join(folder, "answer"))
		}
	})
}

// The old answer is gone before anything else is new.
func TestOldAnswerGoesFirst(t *testing.T) {
	folder := inFolder(t, map[string]string{"readings": "old", "answer": "old answer"})
	traded := 0
	job.WhenTrading(func() {
		traded++
		require.NoFileExists(t, filepath.Join(folder, "answer"))
		requireText(t, "old", filepath.Join(folder, "readings"))
	}, func() {
		var together job.Together
		together.Write(filepath.Join(folder, "readings"), []byte("new"), true)
		together.WriteAfter(filepath.Join(folder, "answer"), []byte("new answer"), true)
		require.NoError(t, together.Done())
	})
	require.Equal(t, 1, traded)
	requireText(t, "new", filepath.Join(folder, "readings"))
	requireText(t, "new answer", filepath.Join(folder, "answer"))
}

// Whoever puts another file in the place, just before it is taken and again just before
// it is given back, has the last word.
func TestNewestSaveStays(t *testing.T) {
	for saves := range 4 {
		folder := inFolder(t, map[string]string{"page": "old"})
		path, traded := filepath.Join(folder, "page"), 0
		last := "new"
		var err error
		job.WhenTrading(func() {
			if traded++; traded <= saves {
				last = strings.Repeat("saved ", traded)
				require.NoError(t, os.WriteFile(path+"~", []byte(last), 0o600))
				require.NoError(t, os.Rename(path+"~", path))
			}
		}, func() { err = job.Write(path, []byte("new"), true) })
		require.Equal(t, saves > 0, err != nil)
		requireText(t, last, path)
		onlyFiles(t, folder, "page")
	}
}

// Without the answer there are no files, and while it is given none is in its place.
func TestTogetherWithAnAnswer(t *testing.T) {
	everywhere(t, func(t *testing.T) {
		folder := inFolder(t, map[string]string{"old": "old"})
		var together job.Together
		together.Write(filepath.Join(folder, "new"), nil, false)
		together.Write(filepath.Join(folder, "old"), []byte("new"), true)
		unsaid := errors.New("nobody listens")
		require.ErrorIs(t, together.DoneWith(func() error {
			require.NoFileExists(t, filepath.Join(folder, "new"))
			requireText(t, "old", filepath.Join(folder, "old"))
			return unsaid
		}), unsaid)
		onlyFiles(t, folder, "old")
		requireText(t, "old", filepath.Join(folder, "old"))
	})
}

// A job that somebody saves between its reading and its writing is left alone, saved in
// place or by another file in its place.
func TestAppendSparesAnEdit(t *testing.T) {
	const before = "title = \"a\"\n[[cylinder]]\nnumber = 1\nstops = [[-30, 30]]\n"
	everywhere(t, func(t *testing.T) {
		for name, save := range map[string]func(path string, text []byte) error{
			"in place": func(path string, text []byte) error { return os.WriteFile(path, text, 0o600) },
			"by renaming": func(path string, text []byte) error {
				return errors.Join(os.WriteFile(path+"~", text, 0o600), os.Rename(path+"~", path))
			},
		} {
			folder := inFolder(t, map[string]string{"job.toml": before})
			path := filepath.Join(folder, "job.toml")
			var together job.Together
			together.Write(filepath.Join(folder, "p.svg"), nil, false)
			require.NoError(t, together.Append(path, []byte("[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = [1]\n")))
			edited := strings.Replace(before, `"a"`, `"edited"`, 1)
			err := together.DoneWith(func() error { return save(path, []byte(edited)) })
			require.EqualError(t, err, path+": was changed by another program in the meantime, so it was left as it is: type the same again", name)
			requireText(t, edited, path)
			onlyFiles(t, folder, "job.toml")
		}
	})
}

// What is done with a readings file works on a plain system as well.
func TestNotebookOnAPlainSystem(t *testing.T) {
	job.OnAPlainSystem(func() {
		TestAddKeepsTheFilesOwnForm(t)
		TestUndo(t)
		TestCutShort(t)
		TestWriteReplaces(t)
		TestWriteKeepsLinks(t)
		TestWriteNeverOverwrites(t)
		TestWriteRefuses(t)
	})
}

// Where no program can be kept from the file, one that saves it now and then, as people
// do, loses nothing: each reading is in the file or was said to be gone. Between looking
// and trading places there is a moment in which a plain system may lose a save; so
// nothing is struck out here.
func TestSavesOnAPlainSystem(t *testing.T) {
	job.OnAPlainSystem(func() {
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
			_, err := n.Add(job.Entry{Angle: "350", Depth: "1." + strings.Repeat("1", i+1), Turn: evidence.Forward})
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
	_, err := n.Add(job.Entry{Angle: "350.5", Depth: "1.25", Turn: evidence.Forward})
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
	_, err = n.Add(job.Entry{Angle: "350.5", Depth: "1.25", Turn: evidence.Forward})
	require.NoError(t, err)
	require.Empty(t, n.News())
}

// Somebody who means to go on in a file that was emptied can.
func TestTakeAsIs(t *testing.T) {
	n, path, _ := openNotebook(t, "angle,depth\n340,4\n")
	defer n.Close()
	require.NoError(t, os.Remove(path))
	began := time.Now()
	_, err := n.Add(job.Entry{Angle: "350", Depth: "1", Turn: evidence.Forward})
	var emptied *job.Emptied
	require.ErrorAs(t, err, &emptied)
	require.True(t, emptied.Gone)
	require.Greater(t, time.Since(began), 500*time.Millisecond, "an editor may be saving it")
	require.NoFileExists(t, path)
	n.TakeAsIs()
	readings, err := n.Add(job.Entry{Angle: "350", Depth: "1", Turn: evidence.Forward})
	require.NoError(t, err)
	require.Len(t, readings, 1)
	require.FileExists(t, path)
}
