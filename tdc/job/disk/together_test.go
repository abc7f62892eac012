package disk_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/disk/disktest"
)

// Files are written together or not at all: whichever of them cannot come to its place,
// the others are as they were, and nothing is left over.
func TestTogether(t *testing.T) {
	disktest.Everywhere(t, func(t *testing.T) {
		for _, bad := range []int{-1, 0, 1, 2} {
			folder := disktest.Folder(t, map[string]string{"old": "old", "answer": "old answer"})
			at := func(i int, name string) string {
				if i == bad {
					name = strings.Repeat("n", 256) // only giving it its name fails
				}
				return filepath.Join(folder, name)
			}
			var together disk.Together
			together.Write(at(0, "new"), []byte("1"), false)
			together.Write(at(1, "old"), []byte("2"), true)
			together.WriteAfter(at(2, "answer"), []byte("3"), true)
			err := disktest.Done(&together)
			if bad < 0 {
				require.NoError(t, err)
				disktest.OnlyFiles(t, folder, "answer", "new", "old")
				for name, want := range map[string]string{"new": "1", "old": "2", "answer": "3"} {
					disktest.RequireText(t, want, filepath.Join(folder, name))
				}
				continue
			}
			require.ErrorContains(t, err, "cannot be written: ")
			require.NotContains(t, err.Error(), ".tmp")
			disktest.OnlyFiles(t, folder, "answer", "old")
			disktest.RequireText(t, "old", filepath.Join(folder, "old"))
			disktest.RequireText(t, "old answer", filepath.Join(folder, "answer"))
		}
	})
}

// Folders that were made for files go again where those are not written, but for what was
// there before, and what somebody else put something into meanwhile.
func TestFoldersGoAgain(t *testing.T) {
	refused := errors.New("nobody takes the answer")
	for _, c := range []struct {
		fails        error
		puts         string // by somebody else, meanwhile
		there, stays []string
	}{
		{nil, "", []string{"a/b/new", "c/new"}, nil},
		{refused, "", nil, []string{"a"}},
		{refused, "c/theirs", []string{"c/theirs"}, []string{"a", "c"}},
	} {
		folder := disktest.Folder(t, nil)
		require.NoError(t, os.Mkdir(filepath.Join(folder, "a"), 0o777))
		var together disk.Together
		for _, in := range []string{"a/b", "c", "c/d/e"} {
			require.NoError(t, together.MakeFolder(filepath.Join(folder, in)))
		}
		together.Write(filepath.Join(folder, "a/b/new"), []byte("1"), false)
		together.Write(filepath.Join(folder, "c/new"), []byte("2"), false)
		require.ErrorIs(t, together.DoneWith(func() error {
			if c.puts != "" {
				require.NoError(t, os.WriteFile(filepath.Join(folder, c.puts), nil, 0o600))
			}
			return c.fails
		}), c.fails)
		for _, file := range c.there {
			require.FileExists(t, filepath.Join(folder, file))
		}
		if c.fails == nil {
			continue
		}
		entries, err := os.ReadDir(folder)
		require.NoError(t, err)
		require.Len(t, entries, len(c.stays))
		require.NoDirExists(t, filepath.Join(folder, "a/b"))
		require.NoDirExists(t, filepath.Join(folder, "c/d"))
	}
	folder := disktest.Folder(t, map[string]string{"file": ""})
	var together disk.Together
	require.NoError(t, together.MakeFolder(filepath.Join(folder, "one")))
	require.ErrorContains(t, together.MakeFolder(filepath.Join(folder, "file/two")), "cannot be made")
	disktest.OnlyFiles(t, folder, "file")
}

// The old answer is gone before anything else is new.
func TestOldAnswerGoesFirst(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{"readings": "old", "answer": "old answer"})
	traded := 0
	disktest.WhenTrading(func() {
		traded++
		require.NoFileExists(t, filepath.Join(folder, "answer"))
		disktest.RequireText(t, "old", filepath.Join(folder, "readings"))
	}, func() {
		var together disk.Together
		together.Write(filepath.Join(folder, "readings"), []byte("new"), true)
		together.WriteAfter(filepath.Join(folder, "answer"), []byte("new answer"), true)
		require.NoError(t, disktest.Done(&together))
	})
	require.Equal(t, 1, traded)
	disktest.RequireText(t, "new", filepath.Join(folder, "readings"))
	disktest.RequireText(t, "new answer", filepath.Join(folder, "answer"))
}

// Whoever puts another file in the place, just before it is taken and again just before
// it is given back, has the last word.
func TestNewestSaveStays(t *testing.T) {
	for saves := range 4 {
		folder := disktest.Folder(t, map[string]string{"page": "old"})
		path, traded := filepath.Join(folder, "page"), 0
		last := "new"
		var err error
		disktest.WhenTrading(func() {
			if traded++; traded <= saves {
				last = strings.Repeat("saved ", traded)
				require.NoError(t, os.WriteFile(path+"~", []byte(last), 0o600))
				require.NoError(t, os.Rename(path+"~", path))
			}
		}, func() { err = disktest.Write(path, []byte("new"), true) })
		require.Equal(t, saves > 0, err != nil)
		disktest.RequireText(t, last, path)
		disktest.OnlyFiles(t, folder, "page")
	}
}

// Without the answer there are no files, and while it is given none is in its place.
func TestTogetherWithAnAnswer(t *testing.T) {
	disktest.Everywhere(t, func(t *testing.T) {
		folder := disktest.Folder(t, map[string]string{"old": "old"})
		var together disk.Together
		together.Write(filepath.Join(folder, "new"), nil, false)
		together.Write(filepath.Join(folder, "old"), []byte("new"), true)
		unsaid := errors.New("nobody listens")
		require.ErrorIs(t, together.DoneWith(func() error {
			require.NoFileExists(t, filepath.Join(folder, "new"))
			disktest.RequireText(t, "old", filepath.Join(folder, "old"))
			return unsaid
		}), unsaid)
		disktest.OnlyFiles(t, folder, "old")
		disktest.RequireText(t, "old", filepath.Join(folder, "old"))
	})
}
