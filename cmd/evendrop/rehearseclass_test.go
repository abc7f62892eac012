package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/rehearse/class"
	"evendrop/cmd/internal/flags"
)

// everyFile is what a folder holds, by path.
func everyFile(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	for _, pattern := range []string{"*", "*/*"} {
		paths, err := filepath.Glob(filepath.Join(dir, pattern))
		require.NoError(t, err)
		for _, path := range paths {
			if data, err := os.ReadFile(path); err == nil {
				name, _ := filepath.Rel(dir, path)
				all[filepath.ToSlash(name)] = string(data)
			}
		}
	}
	return all
}

// One seed makes one class, whatever folder it is in, and another seed another; each engine
// is a job that find answers, and the key is apart.
func TestClassOfTwenty(t *testing.T) {
	t.Chdir(t.TempDir())
	code, out, errs := ev("rehearse", "--class", "20", "monday", "--seed", "7")
	require.Equal(t, answered, code, errs)
	require.Contains(t, unwrapped(out), "evendrop rehearse --check monday --answers answers.csv")
	files := everyFile(t, "monday")
	require.Len(t, files, 20*2+1+20+1)
	for n := 1; n <= 20; n++ {
		for _, name := range []string{"%02d/job.toml", "%02d/cylinder-1.csv", "teacher-only/%02d.toml"} {
			require.Contains(t, files, fmt.Sprintf(name, n))
		}
	}
	answerOf(t, "rehearse", "--class", "20", "again", "--seed", "7")
	require.Equal(t, files, everyFile(t, "again"))
	answerOf(t, "rehearse", "--class", "20", "other", "--seed", "8")
	require.NotEqual(t, files["worksheet.html"], everyFile(t, "other")["worksheet.html"])
	require.Contains(t, answerOf(t, "find", "monday/20"), "True TDC is at")
	byKey := answerOf(t, "rehearse", "--check", "monday/20", "--tdc", "3", "--answer", "monday/teacher-only/20.toml") // a key's answers are answers
	require.Equal(t, byKey, answerOf(t, "rehearse", "--check", "monday/20", "--tdc", "3"), "the class's key is beside its jobs")
	require.Contains(t, files["20/job.toml"], `title = "Practice, engine 20: find true TDC"`)
	t.Chdir("monday/20")
	require.Equal(t, byKey, answerOf(t, "rehearse", "--check", ".", "--tdc", "3"))
}

// A class is written whole or not at all, over nothing but what rehearse made, and no larger
// class is left in part.
func TestClassOverwritesNothing(t *testing.T) {
	t.Chdir(t.TempDir())
	make := func(args ...string) (int, string) {
		code, _, errs := ev(append([]string{"rehearse", "--class"}, args...)...)
		return code, errs
	}
	code, errs := make("3", "monday", "--seed", "1")
	require.Equal(t, answered, code, errs)
	was := everyFile(t, "monday")
	for args, says := range map[string]string{
		"3 monday --seed 2":           "already exists: choose another folder, or type --replace to overwrite it",
		"2 monday --replace":          "03: is of a larger class: choose another folder, or delete that class first",
		"3 monday --answer monday/02": "the jobs themselves are written there",
		"3 monday --answer monday":    "the jobs themselves are written there",
	} {
		code, errs = make(strings.Fields(args)...)
		require.NotEqual(t, answered, code, args)
		require.Contains(t, errs, says, args)
		require.Equal(t, was, everyFile(t, "monday"))
	}
	for _, name := range []string{"02/job.toml", "worksheet.html", "teacher-only/key.html", "teacher-only/01.toml"} {
		require.NoError(t, os.WriteFile(filepath.Join("monday", name), []byte("<html>mine"), 0o600))
		code, errs = make("3", "monday", "--seed", "2", "--replace")
		require.Equal(t, failed, code)
		require.Contains(t, errs, "was not written by evendrop rehearse, so it was left as it is")
		require.NoError(t, os.WriteFile(filepath.Join("monday", name), []byte(was[name]), 0o600))
	}
	require.Equal(t, was, everyFile(t, "monday"))
	code, errs = make("4", "monday", "--seed", "2", "--replace")
	require.Equal(t, answered, code, errs)
	require.Len(t, everyFile(t, "monday"), 4*3+2)
}

// The answers are marked in every form, by the key wherever it is kept.
func TestClassMarked(t *testing.T) {
	t.Chdir(t.TempDir())
	answerOf(t, "rehearse", "--class", "3", "monday", "--seed", "7", "--answer", "desk")
	require.NoDirExists(t, filepath.Join("monday", class.TeacherOnly))
	require.NoError(t, os.WriteFile("a.csv", []byte("name,engine,tdc,within,pin\nAnn,1,3.4,0.3,outside\n=Ben,3,5.6,0.3,within\n"), 0o600))
	var got struct {
		Summary struct{ Answers, Right int }
		Answers []struct {
			Name, Verdict string
			TDC           float64 `json:"tdc_deg"`
			Off           float64 `json:"off_deg"`
			Held          bool
			Own           struct {
				Off    float64 `json:"off_deg"`
				Within float64 `json:"expanded_deg"`
			} `json:"evendrop"`
		}
	}
	ask := func(as string) string {
		return answerOf(t, "rehearse", "--check", "monday", "--answers", "a.csv", "--answer", "desk", "--as", as)
	}
	require.NoError(t, json.Unmarshal([]byte(ask("json")), &got))
	for n, given := range map[int]float64{0: 3.4, 1: 5.6} {
		a := got.Answers[n]
		key := mustRead(t, fmt.Sprintf("desk/%02d.toml", 1+2*n))
		require.Contains(t, key, fmt.Sprintf("tdc_deg = %v\n", a.TDC))
		require.InDelta(t, math.Remainder(given-a.TDC, 360), a.Off, 1e-9)
		require.Equal(t, math.Abs(a.Off) <= 0.3, a.Held)
		cylinder := jsonOf(t, "find", fmt.Sprintf("monday/%02d", 1+2*n)).(map[string]any)["cylinders"].([]any)[0].(map[string]any)
		interval := cylinder["tdc"].(map[string]any)["interval95_deg"].([]any)
		require.InDelta(t, (interval[1].(float64)-interval[0].(float64))/2, a.Own.Within, 1e-9, "as find has it")
	}
	for _, as := range flags.Formats {
		require.Regexp(t, "outside|Right: 1 of 2", ask(as), as)
	}
	require.Contains(t, ask("csv"), "'=Ben", "no formula for a spreadsheet")
}

func TestClassRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"--class 20", wrongUse, "one folder"},
		{"--class 20 a b", wrongUse, "one folder"},
		{"--class 1 a", wrongUse, "expected a whole number from 2 to 40, such as 20"},
		{"--class 41 a", wrongUse, "expected a whole number from 2 to 40"},
		{"--class 20 a --lash 0.05", wrongUse, "--lash is of a single job"},
		{"--class 20 a --as json", wrongUse, "--as is of a single job"},
		{"--class 20 a --check b", wrongUse, "--check is of a single job"},
		{"--answers a.csv", wrongUse, "--answers goes with --check DIR"},
		{"--check a --answers a.csv --tdc 3", wrongUse, "--tdc does not go with --answers"},
		{"--check a b --answers a.csv", wrongUse, "one folder"},
		{"--check a --answers a.csv", failed, "teacher-only: has no key of a class: make one first"},
	} {
		code, out, errs := ev(append([]string{"rehearse"}, strings.Fields(c.args)...)...)
		require.Equal(t, c.code, code, "%s: %s", c.args, errs)
		require.Empty(t, out)
		require.Contains(t, errs, c.says, c.args)
		require.NoDirExists(t, "a")
	}
}

// The picture of chords goes with one engine, and overwrites nothing.
func TestMotionChords(t *testing.T) {
	t.Chdir(t.TempDir())
	answerOf(t, "motion", "--stroke", "86", "--rod", "146", "--chords", "c.svg", "--lash", "0.5")
	require.Contains(t, mustRead(t, "c.svg"), "drawn with lash of 0.5 mm")
	for args, says := range map[string]string{
		"--rod 146 --chords c.svg":                   "already exists",
		"--rod 146 --lash 0.5":                       "--lash goes with --chords FILE.svg",
		"--rod 146,150 --chords d.svg":               "--chords draws one engine",
		"--rod 146 --chords d.svg --lash 2":          "--lash 2 mm: expected a clearance of zero or more, up to 1.02 mm",
		"--rod 146 --chords d.svg --picture d.svg":   "--picture and --chords name one file",
		"--rod 146 --chords c.svg --picture new.svg": "already exists",
	} {
		code, out, errs := ev(append([]string{"motion", "--stroke", "86"}, strings.Fields(args)...)...)
		require.NotEqual(t, answered, code, args)
		require.Empty(t, out)
		require.Contains(t, errs, says, args)
	}
	require.NoFileExists(t, "new.svg")
	require.NoFileExists(t, "d.svg")
	answerOf(t, "motion", "--stroke", "86", "--rod", "146", "--chords", "none.svg", "--lash", "0")
	require.Contains(t, mustRead(t, "none.svg"), "drawn without lash")
	answerOf(t, "motion", "--unit", "in", "--stroke", "3.4", "--rod", "5.7", "--chords", "c.svg", "--lash", "0.02", "--replace")
	require.Contains(t, mustRead(t, "c.svg"), "drawn with lash of 0.02 in")
}
