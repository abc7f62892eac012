package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/flags"
)

// The example's known-good file is what keep makes of its two healthy engines.
func TestKeepMakesTheExample(t *testing.T) {
	want, err := os.ReadFile(story + "known-good.toml")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "good.toml")
	code, out, errs := ev("keep", story+"healthy-1.toml", story+"healthy-2.toml", file)
	require.Equal(t, answered, code, errs)
	require.Contains(t, unwrapped(out), "4 marks of 2 engines kept in ")
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))
	require.Contains(t, string(got), "date = \"2024-04-12\"")
}

// keep overwrites a known-good file when told to, and nothing else ever.
func TestKeepOverwritesNothing(t *testing.T) {
	job := engine(t, "job.toml", 0, 0, 0, 0, 0, 0)
	file := filepath.Join(t.TempDir(), "good.toml")
	for _, as := range flags.Formats {
		code, out, errs := ev("keep", job, file, "--as", as, "--replace")
		require.Equal(t, answered, code, errs)
		require.NotEmpty(t, out)
	}
	before, err := os.ReadFile(file)
	require.NoError(t, err)
	code, out, errs := ev("keep", engine(t, "job.toml", 1, 1, 1, 1, 1, 1), file)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "already exists: choose another name, or type --replace")
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(before), string(after))

	other := engine(t, "other.toml", 0, 0, 0, 0, 0, 0)
	whole, err := os.ReadFile(other)
	require.NoError(t, err)
	code, _, errs = ev("keep", job, other, "--replace")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "is not a known-good file, so it was left as it is")
	still, err := os.ReadFile(other)
	require.NoError(t, err)
	require.Equal(t, string(whole), string(still))
}

// Held against the engine that it was kept of a job is off by nothing; a fault
// shows by how much it differs from that engine, and where should be is from.
func TestFindAgainst(t *testing.T) {
	good := filepath.Join(t.TempDir(), "good.toml")
	healthy := []float64{.3, -.4, .2, .1, -.3, .4}
	code, out, errs := ev("keep", engine(t, "job.toml", healthy...), good)
	require.Equal(t, answered, code, errs)
	within80(t, strings.ReplaceAll(out, good, "good.toml"))
	same := foundJSON(t, engine(t, "job.toml", healthy...), "--against", good)
	require.Equal(t, good, *same.KnownGood)
	for i, m := range same.Marks {
		require.InDelta(t, 0, m.Off, 2e-6) // the file's millionths
		require.InDelta(t, healthy[i], *m.ShouldBe, 1e-6)
		require.Equal(t, good, *m.Source)
	}
	moved := foundJSON(t, engine(t, "job.toml", .3, -.4, .2+18, .1+18, -.3+18, .4+18), "--against", good)
	require.InDelta(t, 18, moved.Marks[2].Off, 2e-6)
	require.InDelta(t, 18, moved.Explanations[0].Slips[0].Shift, 1e-5)
	code, out, errs = ev("find", engine(t, "job.toml", healthy...), "--against", good)
	require.Equal(t, answered, code, errs)
	require.Contains(t, unwrapped(out), "are what one healthy engine showed (good.toml), and their uncertainty is in the ±. How much healthy engines differ")

	code, out, errs = ev("find", diagnostician, "--against", good)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "none of the job's marks is in")
	code, out, errs = ev("find", diagnostician, "--against", story+"known-good.toml")
	require.Equal(t, answered, code, errs)
	require.Contains(t, unwrapped(out), "points to flywheel on crank, 2.8 ± 0.4 deg late")
	require.Contains(t, unwrapped(out), "are what 2 healthy engines showed (known-good.toml)")
}

// A healthy engine whose mark is outside its limit is kept, and doubted.
func TestKeepDoubts(t *testing.T) {
	code, out, errs := ev("keep", engine(t, "job.toml", 3, 0, 0, 0, 0, 0), filepath.Join(t.TempDir(), "good.toml"))
	require.Equal(t, answered, code, errs)
	require.Contains(t, unwrapped(out), "the P is 3.0 ± 0.5 deg late, and its limit is 1 deg (outside). Make sure that this engine is healthy")
}

// One job under two names is one engine: a copy, a link, a path written otherwise, a
// copy with other file names and remarks.
func TestKeepCountsAJobOnce(t *testing.T) {
	job := engine(t, "job.toml", .3, -.4, .2, .1, -.3, .4)
	dir := filepath.Dir(job)
	text := mustRead(t, job)
	link := filepath.Join(dir, "link.toml")
	require.NoError(t, os.Symlink(job, link))
	renamed := jobFile(t, "renamed.toml", "# a remark\n"+strings.Replace(text, "cylinder-1.csv", "other.csv", 1))
	readings := mustRead(t, filepath.Join(dir, "cylinder-1.csv"))
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(renamed), "other.csv"), []byte("# again\n"+readings), 0o600))
	for _, same := range []string{job, dir + "/./job.toml", link, jobFile(t, "copy.toml", text), renamed} {
		file := filepath.Join(t.TempDir(), "good.toml")
		code, out, errs := ev("keep", job, same, file)
		require.Equal(t, wrongUse, code, "%s: %s", same, errs)
		require.Empty(t, out)
		require.Contains(t, errs, "name each job once")
		require.NoFileExists(t, file)
	}
	require.Contains(t, text, "title = ")
	for old, new := range map[string]string{"title = \"": "title = \"Another, ", "off = 0.3\n": "off = 0.35\n"} {
		other := jobFile(t, "other.toml", strings.Replace(text, old, new, 1))
		code, out, errs := ev("keep", job, other, filepath.Join(t.TempDir(), "good.toml"))
		require.Equal(t, answered, code, errs)
		require.Contains(t, unwrapped(out), "have the same readings, to the last digit: make sure that these are two engines")
	}
	_, out, _ := ev("keep", story+"healthy-1.toml", story+"healthy-2.toml", filepath.Join(t.TempDir(), "good.toml"))
	require.NotContains(t, unwrapped(out), "have the same readings")
}

// A job compared with itself says so.
func TestRecheckOfOneJob(t *testing.T) {
	job := engine(t, "job.toml", 0, 0, 0, 0, 0, 0)
	_, out, _ := ev("recheck", job, job)
	require.Contains(t, unwrapped(out), "this compares an engine with itself")
	_, out, _ = ev("recheck", story+"job.toml", story+"after.toml")
	require.NotContains(t, unwrapped(out), "compares an engine with itself")
}
