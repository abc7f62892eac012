package disk_test

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/source"
)

func TestWriteNew(t *testing.T) {
	for _, replace := range []bool{false, true} {
		folder := t.TempDir()
		path := filepath.Join(folder, "job.toml")
		require.NoError(t, disktest.Write(path, []byte("new"), replace))
		disktest.RequireText(t, "new", path)
		disktest.OnlyFiles(t, folder, "job.toml")

		// It gets the mode that any new file gets.
		plain := filepath.Join(t.TempDir(), "plain")
		require.NoError(t, os.WriteFile(plain, nil, 0o666))
		want, err := os.Stat(plain)
		require.NoError(t, err)
		got, err := os.Stat(path)
		require.NoError(t, err)
		require.Equal(t, want.Mode(), got.Mode())
	}
}

func TestWriteReplaces(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{"job.toml": "old and longer"})
	path := filepath.Join(folder, "job.toml")
	require.NoError(t, os.Chmod(path, 0o640))
	before, err := os.Stat(path)
	require.NoError(t, err)

	err = disktest.Write(path, []byte("new"), false)
	require.EqualError(t, err, path+": already exists: choose another name")
	disktest.RequireText(t, "old and longer", path)

	require.NoError(t, disktest.Write(path, []byte("new"), true))
	disktest.RequireText(t, "new", path)
	after, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, before.Mode(), after.Mode())
	disktest.OnlyFiles(t, folder, "job.toml")
}

func TestWriteKeepsLinks(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{"real/job.toml": "old"})
	link := filepath.Join(folder, "job.toml")
	if err := os.Symlink(filepath.Join("real", "job.toml"), link); err != nil {
		t.Skip("no links here: ", err)
	}
	require.Error(t, disktest.Write(link, []byte("new"), false))
	require.NoError(t, disktest.Write(link, []byte("new"), true))
	target, err := os.Readlink(link)
	require.NoError(t, err)
	require.Equal(t, filepath.Join("real", "job.toml"), target)
	disktest.RequireText(t, "new", filepath.Join(folder, "real", "job.toml"))
	disktest.OnlyFiles(t, filepath.Join(folder, "real"), "job.toml")

	// A link to nowhere counts as a file, and is replaced as one.
	require.NoError(t, os.Remove(filepath.Join(folder, "real", "job.toml")))
	require.Error(t, disktest.Write(link, []byte("new"), false))
	require.NoError(t, disktest.Write(link, []byte("newer"), true))
	disktest.RequireText(t, "newer", link)
	disktest.OnlyFiles(t, folder, "job.toml", "real")
	disktest.OnlyFiles(t, filepath.Join(folder, "real"))
}

func TestWriteRefuses(t *testing.T) {
	folder := disktest.Folder(t, map[string]string{"file": "old"})
	for name, want := range map[string]string{
		"":               "is a folder: name a file in it",
		"none/job.toml":  "its folder does not exist: make it first, or choose another",
		"none/none/none": "its folder does not exist: make it first, or choose another",
	} {
		path := filepath.Join(folder, name)
		err := disktest.Write(path, []byte("new"), true)
		require.EqualError(t, err, path+": "+want)
		require.IsType(t, &source.Error{}, err)
	}
	err := disktest.Write(filepath.Join(folder, "file", "job.toml"), nil, true)
	require.ErrorContains(t, err, ": cannot be written: ")
	require.NotContains(t, err.Error(), ".tmp")
	// Here only giving the file its name fails; nothing is left of it.
	for _, replace := range []bool{false, true} {
		err = disktest.Write(filepath.Join(folder, strings.Repeat("n", 256)), nil, replace)
		require.ErrorContains(t, err, ": cannot be written: ")
		require.NotContains(t, err.Error(), ".tmp")
	}
	disktest.OnlyFiles(t, folder, "file")
}

func TestWriteWithoutLeave(t *testing.T) {
	if runtime.GOOS == "windows" || os.Getuid() == 0 {
		t.Skip("nothing is forbidden here")
	}
	folder := t.TempDir()
	require.NoError(t, os.Chmod(folder, 0o500))
	err := disktest.Write(filepath.Join(folder, "job.toml"), nil, false)
	require.ErrorContains(t, err, "may not be written")
}

// Of many who write a new file at once, one does.
func TestWriteNeverOverwrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.toml")
	errs := make([]error, 8)
	var wait sync.WaitGroup
	for i := range errs {
		wait.Go(func() { errs[i] = disktest.Write(path, []byte{byte('0' + i)}, false) })
	}
	wait.Wait()
	written := ""
	for i, err := range errs {
		if err == nil {
			written += string(rune('0' + i))
		}
	}
	require.Len(t, written, 1)
	disktest.RequireText(t, written, path)
	disktest.OnlyFiles(t, filepath.Dir(path), "job.toml")
}

// Whoever reads while a file is written again and again sees a whole one.
func TestWriteIsWhole(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "job.toml")
	whole := map[string]bool{strings.Repeat("a", 1<<16): true, strings.Repeat("b", 1<<17): true}
	for text := range whole {
		require.NoError(t, disktest.Write(path, []byte(text), true))
	}
	done := make(chan error)
	go func() {
		for range 10 {
			for text := range whole {
				if err := disktest.Write(path, []byte(text), true); err != nil {
					done <- err
					return
				}
			}
		}
		close(done)
	}()
	for {
		select {
		case err := <-done:
			require.NoError(t, err)
			disktest.OnlyFiles(t, folder, "job.toml")
			return
		default:
			got, err := os.ReadFile(path)
			require.NoError(t, err)
			require.True(t, whole[string(got)], "%d bytes", len(got))
		}
	}
}

// What is no plain file, such as a pipe, is never put out of its place.
func TestWriteLeavesPipes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pipe")
	if err := disktest.MakePipe(path); err != nil {
		t.Skip("no pipes here: ", err)
	}
	require.EqualError(t, disktest.Write(path, []byte("x"), true), path+": is not a plain file, so it was left as it is: choose another name")
	info, err := os.Lstat(path)
	require.NoError(t, err)
	require.False(t, info.Mode().IsRegular())
}

// What is written works on a plain system as well.
func TestWriteOnAPlainSystem(t *testing.T) {
	disktest.OnAPlainSystem(func() {
		TestWriteReplaces(t)
		TestWriteKeepsLinks(t)
		TestWriteNeverOverwrites(t)
		TestWriteRefuses(t)
	})
}
