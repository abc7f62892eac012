// Package disktest runs tests of files, in folders of their own, as on this system and
// on others.
package disktest

import (
	"archive/zip"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/disk"
)

// Folder writes files into a folder of the test's own, and returns it.
func Folder(t *testing.T, files map[string]string) string {
	t.Helper()
	folder := t.TempDir()
	for name, text := range files {
		path := filepath.Join(folder, name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
	}
	return folder
}

// OnlyFiles requires that a folder holds these files and nothing left over.
func OnlyFiles(t *testing.T, folder string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	names := []string{}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	require.Equal(t, append([]string{}, want...), names)
}

// RequireText requires that a file holds this text.
func RequireText(t *testing.T, want, path string) {
	t.Helper()
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, want, string(got))
}

// Write writes one file by itself, with nothing to answer. An error is disk.Together's.
func Write(path string, data []byte, replace bool) error {
	var together disk.Together
	together.Write(path, data, replace)
	return Done(&together)
}

// Done writes files with nothing to answer. An error is disk.Together's.
func Done(together *disk.Together) error { return together.DoneWith(func() error { return nil }) }

// Zip zips a folder, with a name before each of its files, such as "bench/", or "".
func Zip(t testing.TB, folder, before, path string) {
	t.Helper()
	file, err := os.Create(path)
	require.NoError(t, err)
	defer file.Close()
	w := zip.NewWriter(file)
	require.NoError(t, filepath.WalkDir(folder, func(at string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		name, err := filepath.Rel(folder, at)
		require.NoError(t, err)
		data, err := os.ReadFile(at)
		require.NoError(t, err)
		in, err := w.Create(before + filepath.ToSlash(name))
		require.NoError(t, err)
		_, err = in.Write(data)
		return err
	}))
	require.NoError(t, w.Close())
}
