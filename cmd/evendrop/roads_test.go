package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/flags"
	"evendrop/tdc/job/disk/disktest"
	"evendrop/tdc/job/jobtest"
)

// said is what a command line ends with, by a road to the job that has other names.
type said struct {
	Code            int
	Out, Errs, Kept string
}

// asJob is a command line's end where the job's road stands as JOB.
func asJob(t *testing.T, road, dir string, args ...string) said {
	t.Helper()
	kept := filepath.Join(dir, "kept.toml")
	require.NoError(t, os.RemoveAll(kept))
	code, out, errs := ev(args...)
	data, err := os.ReadFile(kept)
	if err != nil {
		require.ErrorIs(t, err, os.ErrNotExist)
	}
	generic := func(text string) string { return strings.ReplaceAll(text, road, "JOB") }
	return said{code, generic(out), generic(errs), string(data)}
}

// sameByEveryRoad requires that find, keep and recheck say the same of a job's file, its
// folder and a zip of it, to the last byte, but for its name.
func sameByEveryRoad(t *testing.T, folder string, forms ...string) {
	t.Helper()
	// a name of the same length has lines broken in the same places
	dir := t.TempDir()
	plain, zip := filepath.Join(dir, "abcde"), filepath.Join(dir, "a.zip")
	require.NoError(t, os.CopyFS(plain, os.DirFS(folder)))
	disktest.Zip(t, folder, "", zip)
	for _, as := range forms {
		ask := func(road, named string) (answers []said) {
			for _, args := range [][]string{
				{"find", named, "--as", as, "--details", "--every-reading"},
				{"keep", named, filepath.Join(dir, "kept.toml"), "--as", as},
				{"recheck", named, named, "--as", as},
			} {
				answers = append(answers, asJob(t, road, dir, args...))
			}
			return answers
		}
		want := ask(plain, filepath.Join(plain, "job.toml"))
		require.Equal(t, want, ask(plain, plain))
		require.Equal(t, want, ask(zip, zip))
		require.NotContains(t, want[0].Out+want[0].Errs, dir)
	}
}

// A folder and a zip of it say what the job file says.
func TestEveryRoadOfTheExamples(t *testing.T) {
	for _, example := range []string{"builder", "diagnostician"} {
		sameByEveryRoad(t, "../../examples/"+example, flags.Formats...)
	}
}

// The same of invented jobs of every kind.
func TestEveryRoadOfInventedJobs(t *testing.T) {
	jobs := 50
	if testing.Short() {
		jobs = 8
	}
	for seed := range jobs {
		folder := t.TempDir()
		require.NoError(t, jobtest.Jobs().Example(seed).Write(folder))
		sameByEveryRoad(t, folder, flags.Formats[seed%len(flags.Formats)])
	}
}

// In a job's folder nothing need be named, and it is said which job it is; elsewhere it is
// said what to type.
func TestTheFolderOneIsIn(t *testing.T) {
	const here = "No job was named: this is job.toml of the folder you are in.\n"
	elsewhere, home := t.TempDir(), t.TempDir()
	require.NoError(t, os.CopyFS(home, os.DirFS("../../examples/builder")))
	t.Chdir(home)
	_, want, _ := ev("find", "job.toml", "--as", "json")
	code, out, errs := ev("find", "--as", "json")
	require.Equal(t, []any{answered, want, here}, []any{code, out, errs})
	_, want, _ = ev("find", ".")
	_, out, _ = ev("find")
	require.Equal(t, want, out)

	_, want, _ = ev("plan", "job.toml")
	code, out, errs = ev("plan")
	require.Equal(t, []any{answered, want, here}, []any{code, out, errs})

	code, _, errs = ev("jot")
	require.Equal(t, answered, code)
	require.Contains(t, errs, here)

	code, out, errs = ev("keep", "known.toml")
	require.Equal(t, []any{answered, here}, []any{code, errs})
	require.Contains(t, out, "kept in known.toml")
	code, _, errs = ev("keep", "known.toml")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "known.toml: already exists: choose another name, or type --replace to overwrite it")
	for _, jobs := range []string{".", "job.toml", "none.zip", "../" + filepath.Base(home)} {
		code, _, errs = ev("keep", jobs)
		require.Equal(t, wrongUse, code)
		require.Contains(t, errs, "keep was given a job and no file to write: type for example evendrop keep "+jobs+" known-good.toml")
	}
	code, _, errs = ev("find", "--readings", "cylinder-1.csv")
	require.Equal(t, []any{answered, ""}, []any{code, errs})
	code, _, errs = ev("find", "--stroke", "80")
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, "--stroke goes with the second: type for example evendrop find --readings")

	t.Chdir(elsewhere)
	for _, c := range []string{"find", "plan", "jot", "keep"} {
		code, out, errs := ev(c)
		require.Equal(t, wrongUse, code, c)
		require.Empty(t, out)
		require.Contains(t, errs, "type for example evendrop "+c+" ", c)
		require.Equal(t, 1, strings.Count(errs, "\n"))
	}
	code, _, errs = ev("keep", "known.toml")
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, "evendrop keep job.toml known-good.toml")
	code, _, errs = ev("recheck", home)
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, "type evendrop recheck BEFORE AFTER, where . is the folder you are in")
	code, _, errs = ev("find", elsewhere)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "is a folder without a job.toml: check the name, or make a new job: evendrop begin DIR")
}

// Readings go into the folder that was named, and edges into its job.toml; into a zip
// nothing goes.
func TestWritingByAFolder(t *testing.T) {
	dir := t.TempDir()
	folder, zip := filepath.Join(dir, "bench"), filepath.Join(dir, "bench.zip")
	require.NoError(t, os.CopyFS(folder, os.DirFS("../../examples/diagnostician")))
	disktest.Zip(t, folder, "", zip)
	before := mustRead(t, zip)
	edges := []string{"edges", filepath.Join(folder, "capture.csv"), "--crank", "Crank", "--cam", "Cam", "--wheel", "60-2", "--on", "Camshaft-Wheel", "--into"}
	for _, args := range [][]string{{"jot", zip}, append(edges[:len(edges):len(edges)], zip)} {
		code, out, errs := ev(args...)
		require.Equal(t, failed, code)
		require.Empty(t, out)
		require.Equal(t, "evendrop: "+zip+": a zip is only read, and nothing is written into it: unpack it first, and name its folder\n", errs)
		require.Equal(t, before, mustRead(t, zip))
	}
	code, _, errs := ev(append(edges, folder)...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, errs, filepath.Join(folder, "job.toml")+": ")
	require.Contains(t, mustRead(t, filepath.Join(folder, "job.toml")), "on = \"cam wheel\"\n", "the file has the field's word")

	var c console
	j, err := c.jobToAddTo("jot", []string{folder})
	require.NoError(t, err)
	require.Equal(t, filepath.Join(folder, "cylinder-1.csv"), j.ReadingsFiles[1])
}

// A choice in other words is that choice, and an answer has the field's word.
func TestForgivingWords(t *testing.T) {
	readings := "../../examples/diagnostician/cylinder-1.csv"
	_, want, _ := ev("find", "--readings", readings, "--stroke", "81.4", "--rod", "133", "--gauge", "dial", "--gauge-counts", "down", "--wraps", "360", "--as", "markdown")
	code, out, errs := ev("find", "--readings", readings, "--stroke", "81.4", "--rod", "133", "--gauge", "DTI", "--gauge-counts", "Downwards", "--wraps", "360", "--as", "md")
	require.Equal(t, []any{answered, want, ""}, []any{code, out, errs})
	code, _, errs = ev("find", "--readings", readings, "--gauge", "dail")
	require.Equal(t, wrongUse, code)
	require.Equal(t, "evendrop: --gauge dail: did you mean dial?\n", errs)

	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../examples/diagnostician")))
	path := filepath.Join(dir, "job.toml")
	strict := mustRead(t, path)
	_, want, _ = ev("find", path, "--as", "json")
	loose := strings.NewReplacer(`on = "cam"`, `on = "Camshaft"`, `"one cam"`, `"SOHC"`, `on = "crank wheel"`, `on = "crankshaft sensor wheel"`, `on = "flywheel"`, `on = "fly wheel"`).Replace(strict)
	require.NotEqual(t, strict, loose)
	require.NoError(t, os.WriteFile(path, []byte(loose), 0o600))
	code, out, errs = ev("find", path, "--as", "json")
	require.Equal(t, answered, code, errs)
	require.Equal(t, want, out)
	require.NoError(t, os.WriteFile(path, []byte(strings.ReplaceAll(strict, "\non = \"flywheel\"", "\non = \"flywhel\"")), 0o600))
	code, _, errs = ev("find", path)
	require.Equal(t, failed, code)
	require.Contains(t, errs, `the drive has no member "flywhel": did you mean "flywheel"?`)
}
