package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Readings that are nothing but noise are never an answer: TDC cannot be told, and
// nothing is judged, kept or compared by it.
func TestNoiseIsNoAnswer(t *testing.T) {
	const seed = 20240501
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	dir := t.TempDir()
	path := filepath.Join(dir, "job.toml")
	text := "[engine]\nstroke = 81.4\nrod = 133\n[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n" +
		"[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = [3]\nlimit = 1\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	refused := 0
	for range 60 {
		rows := "angle,depth\n"
		for range []int{6, 8, 12, 24, 40}[rng.IntN(5)] {
			rows += fmt.Sprintf("%.1f,%.2f\n", 360*rng.Float64(), 80*rng.Float64())
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(rows), 0o600))
		code, out, errs := ev("find", path, "--as", "json")
		if code == failed {
			require.NotEmpty(t, errs)
			refused++
			continue
		}
		require.Equal(t, answered, code, errs)
		var got struct {
			Cylinders []struct {
				CannotTell *string `json:"cannot_tell"`
			}
			Marks []any
		}
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		require.NotNil(t, got.Cylinders[0].CannotTell, rows)
		require.Empty(t, got.Marks)
		_, out, _ = ev("find", path)
		out = strings.Join(strings.Fields(out), " ")
		require.Contains(t, out, "True TDC cannot be told from these readings: ")
		require.Contains(t, out, "No mark is judged by it.")
		require.NotContains(t, out, "Go back and see")
		code, _, _ = ev("find", path, "--strict")
		require.Equal(t, notFine, code)
		for _, args := range [][]string{{"keep", path, filepath.Join(dir, "k.toml")}, {"recheck", path, path}} {
			code, _, errs := ev(args...)
			require.Equal(t, failed, code)
			require.Contains(t, errs, "TDC cannot be told from its readings")
		}
	}
	t.Logf("%d of 60 refused", refused)
	require.Less(t, refused, 30)
}
