package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A job reads files outside its folder when it is trusted to, and not else.
func TestTrustPaths(t *testing.T) {
	dir := t.TempDir()
	readings := "angle,depth\n340,3.2\n345,1.8\n350,0.8\n10,0.8\n15,1.8\n20,3.2\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(readings), 0o600))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "bench"), 0o700))
	path := filepath.Join(dir, "bench", "job.toml")
	text := "[[cylinder]]\nnumber = 1\nreadings = \"../r.csv\"\n[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = 3\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	for _, args := range [][]string{{"find", path}, {"recheck", path, path}, {"keep", path, filepath.Join(dir, "known.toml")}} {
		code, out, errs := ev(args...)
		require.Equal(t, failed, code, args)
		require.Empty(t, out)
		require.Contains(t, errs, "type --trust-paths if you trust this job to read it")
		code, _, errs = ev(append(args, "--trust-paths")...)
		require.Equal(t, answered, code, errs)
	}
}

// Asked for a command's help in either way, evendrop gives it.
func TestHelpOfACommand(t *testing.T) {
	for _, c := range commands() {
		_, asked, _ := ev("help", c.name)
		_, flagged, _ := ev(c.name, "--help")
		require.Equal(t, flagged, asked)
		require.Contains(t, asked, "evendrop "+c.name)
	}
	_, alone, _ := ev()
	for _, args := range [][]string{{"help"}, {"help", "help"}, {"help", "--help"}, {"--help", "find"}} {
		code, out, _ := ev(args...)
		require.Equal(t, answered, code)
		if args[0] == "help" {
			require.Equal(t, alone, out)
		}
	}
	code, _, errs := ev("help", "nix")
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, `no command "nix"`)
}
