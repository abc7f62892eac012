package main

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A zip has the program, which may be run, the README and every example; the same files
// make the same bytes, whenever.
func TestPacked(t *testing.T) {
	source := os.DirFS(filepath.Join("..", ".."))
	for _, s := range systems {
		once, err := s.packed(source, []byte("program"))
		require.NoError(t, err)
		again, err := s.packed(source, []byte("program"))
		require.NoError(t, err)
		require.True(t, bytes.Equal(once, again))
		read, err := zip.NewReader(bytes.NewReader(once), int64(len(once)))
		require.NoError(t, err)
		program, err := read.Open("evendrop/" + s.program())
		require.NoError(t, err)
		info, err := program.Stat()
		require.NoError(t, err)
		require.NotZero(t, info.Mode()&0o100, "it may be run")
		for _, name := range []string{"evendrop/README.md", "evendrop/examples/diagnostician/job.toml", "evendrop/examples/builder/inlet-1.csv"} {
			_, err := read.Open(name)
			require.NoError(t, err, name)
		}
		for _, f := range read.File {
			require.Zero(t, int(f.ModifiedDate)+int(f.ModifiedTime), "%s has a time", f.Name)
		}
	}
	require.Len(t, systems, 6)
}

// Checksums are of everything, as sha256sum -c reads them (FIPS180-4: of nothing, and of abc).
func TestChecksums(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "site"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a"), nil, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "site", "b"), []byte("abc"), 0o600))
	require.NoError(t, checksums(dir))
	sums, err := os.ReadFile(filepath.Join(dir, "SHA256SUMS"))
	require.NoError(t, err)
	require.Equal(t, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855  a\n"+
		"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  site/b\n", string(sums))
}

// A release never goes among other files.
func TestReleaseWantsAFolderOfItsOwn(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "mine"), nil, 0o600))
	require.ErrorContains(t, run([]string{dir}), "is not empty")
	require.ErrorContains(t, run(nil), "takes the folder to make")
}
