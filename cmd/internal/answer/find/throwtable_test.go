package find_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find"
	"evendrop/cmd/internal/scenes"
	"evendrop/tdc/job"
)

// eightInInches is the scene's job file.
func eightInInches(t *testing.T) string {
	t.Helper()
	const name = "05-eight-in-inches"
	dir := t.TempDir()
	for _, s := range scenes.All() {
		if s.Name == name {
			_, err := s.Write(dir)
			require.NoError(t, err)
		}
	}
	return filepath.Join(dir, name, scenes.JobFile)
}

// Eight cylinders with throws and crowns are a table on a screen of 80 letters, and without
// crowns it has no empty columns for them.
func TestThrowTableFits(t *testing.T) {
	file := eightInInches(t)
	said := func() string {
		j, err := job.Open(file)
		require.NoError(t, err)
		a, err := find.Of(j)
		require.NoError(t, err)
		out, err := a.Text(80)
		require.NoError(t, err)
		return string(out)
	}
	require.Regexp(t, `\n Cylinder  TDC at  throw off  ± deg  crown lower +± in  verdict\n`, said())
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	raw = []byte(strings.NewReplacer("same_zero = true", "", "throw_limit = 0.4", "throw_limit = 0.59").Replace(string(raw)))
	require.NoError(t, os.WriteFile(file, raw, 0o600))
	require.Regexp(t, `\n Cylinder  TDC at  throw off  ± deg  verdict\n`, said())
	require.Contains(t, said(), "throw too close\n")
}

// The screen of marks says of throws and crowns what is outside, as the answer does.
func TestThrowsAtTheBench(t *testing.T) {
	j, err := job.Open(eightInInches(t))
	require.NoError(t, err)
	a, err := find.Of(j)
	require.NoError(t, err)
	require.Regexp(t, `^Cylinder \d's (throw is|crown stands) .*outside its limit`, a.AtBench())
	require.Contains(t, a.AtBench(), a.Headline())
}
