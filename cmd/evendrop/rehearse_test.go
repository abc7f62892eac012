package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/flags"
)

var update = flag.Bool("update", false, "write what the lesson's commands answer into its README")

// The lesson shows what its commands really answer, run one after the other in an
// empty folder. With -args -update it is written anew.
func TestLesson(t *testing.T) {
	file, err := filepath.Abs("../../examples/teacher/README.md")
	require.NoError(t, err)
	lesson, err := os.ReadFile(file)
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	commands := 0
	block := regexp.MustCompile("(?s)```console\n\\$ evendrop ([^\n]*)\n(.*?)```\n")
	answers := block.ReplaceAllStringFunc(string(lesson), func(text string) string {
		commands++
		line := block.FindStringSubmatch(text)[1]
		code, out, errs := ev(strings.Fields(line)...)
		require.Equal(t, answered, code, errs)
		return "```console\n$ evendrop " + line + "\n" + out + "```\n"
	})
	require.Equal(t, 4, commands)
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(answers), 0o644))
	}
	require.True(t, answers == string(lesson) || *update, "the lesson shows other answers: go test ./cmd/evendrop -run Lesson -args -update")
	require.FileExists(t, "lesson/page.html")
}

// The job tells the learner nothing of what was switched on; the answer tells all.
func TestRehearse(t *testing.T) {
	dir := t.TempDir()
	folder, secret := filepath.Join(dir, "lesson"), filepath.Join(dir, "secret.toml")
	args := []string{"rehearse", folder, "--seed", "7", "--lash", "0.05", "--tilt", "15", "--typo", "1", "--turn", "both", "--stroke", "90",
		"--rod", "150", "--pin", "2.5", "--readings", "10", "--offset", "1.5", "--answer", secret}
	code, out, errs := ev(args...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "20 readings")
	require.Contains(t, unwrapped(out), "--answer "+secret)
	require.NoFileExists(t, filepath.Join(folder, "answer.toml"))
	answer, err := os.ReadFile(secret)
	require.NoError(t, err)
	for _, line := range []string{"seed = 7", "lash_mm = 0.05", "tilt_deg = 15.0", "gauge_scale = 1.0353", "stroke_mm = 90.0", "rod_mm = 150.0",
		"offset_mm = 1.5", "pin_late_deg = 2.5", "turns = ['forward', 'backward']", "[[typo]]", "[[trap]]"} {
		require.Contains(t, string(answer), line)
	}
	job, err := os.ReadFile(filepath.Join(folder, "job.toml"))
	require.NoError(t, err)
	require.NotContains(t, string(job), "seed")
	require.NotContains(t, string(job), "1.5")
	require.Contains(t, string(job), "stroke = 90\nrod = 150\n")

	code, out, errs = ev("find", filepath.Join(folder, "job.toml"))
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "locking pin")

	code, _, errs = ev(args...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "--replace")
	code, _, errs = ev(append(args, "--replace")...)
	require.Equal(t, answered, code, errs)
}

// Nothing is written over when one of the files is there.
func TestRehearseWritesAllOrNothing(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "answer.toml"), []byte("mine"), 0o600))
	code, out, errs := ev("rehearse", folder)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "answer.toml")
	list, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, list, 1)
}

// An answer is marked against the truth, as the protractor shows it.
func TestRehearseCheck(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "lesson")
	code, _, errs := ev("rehearse", folder, "--seed", "3")
	require.Equal(t, answered, code, errs)
	mark := func(given string) (got struct {
		Verdict string
		TDC     float64 `json:"tdc_deg"`
		Off     float64 `json:"off_deg"`
		Near    *string
	}) {
		code, out, errs := ev("rehearse", "--check", folder, "--tdc", given, "--as", "json")
		require.Equal(t, answered, code, errs)
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		return got
	}
	truth := mark("0").TDC
	right := mark(regexp.MustCompile(`0+$`).ReplaceAllString(jsonNumber(truth), ""))
	require.Equal(t, "within", right.Verdict)
	require.InDelta(t, 0, right.Off, 1e-9)
	wrong := mark("90")
	require.Equal(t, "outside", wrong.Verdict)
	require.InDelta(t, 90-truth, wrong.Off, 1e-9)
	require.Nil(t, wrong.Near)
	mirrored := mark(jsonNumber(360 - truth))
	require.NotNil(t, mirrored.Near)
	require.Contains(t, *mirrored.Near, "wrong way round")
	for _, as := range flags.Formats {
		code, out, errs := ev("rehearse", "--check", folder, "--tdc", "90", "--as", as)
		require.Equal(t, answered, code, errs)
		require.Contains(t, strings.ToLower(out), "outside", as)
	}
}

func jsonNumber(x float64) string {
	text, _ := json.Marshal(x)
	return string(text)
}

func TestRehearseRefuses(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "answer.toml"), []byte("tdc_deg = 'x'\n"), 0o600))
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{nil, wrongUse, "one folder"},
		{[]string{"a", "b"}, wrongUse, "one folder"},
		{[]string{"a", "--turn", "left"}, wrongUse, "forward, backward or both"},
		{[]string{"a", "--lash", "x"}, wrongUse, "--lash x"},
		{[]string{"a", "--lash", "9"}, wrongUse, "lash"},
		{[]string{"a", "--rod", "20"}, wrongUse, "too short"},
		{[]string{"a", "--typo", "99"}, wrongUse, "quarter"},
		{[]string{"a", "--tilt", "NaN"}, wrongUse, "tilted"},
		{[]string{"a", "--pin", "NaN"}, wrongUse, "--pin"},
		{[]string{"a", "--as", "json"}, wrongUse, "--check"},
		{[]string{"--tdc", "3"}, wrongUse, "--check DIR"},
		{[]string{"--check", dir}, wrongUse, "--tdc"},
		{[]string{"--check", dir, "--tdc", "x"}, wrongUse, "x"},
		{[]string{"--check", dir, "b", "--tdc", "3"}, wrongUse, "one folder"},
		{[]string{"--check", dir, "--tdc", "3"}, failed, "is not an answer that evendrop rehearse wrote"},
		{[]string{"--check", filepath.Join(dir, "none"), "--tdc", "3"}, failed, "not found"},
	} {
		t.Chdir(dir)
		code, out, errs := ev(append([]string{"rehearse"}, c.args...)...)
		require.Equal(t, c.code, code, "%v: %s", c.args, errs)
		require.Empty(t, out, c.args)
		require.Contains(t, errs, c.says, c.args)
		require.Equal(t, 1, strings.Count(errs, "\n"), errs)
		require.NoDirExists(t, filepath.Join(dir, "a"), "nothing is written for a plan that is refused: %v", c.args)
	}
}

// An answer that is none of ours is refused, and one that is not there is asked for.
func TestRehearseAnswers(t *testing.T) {
	dir := t.TempDir()
	check := func() string {
		code, out, errs := ev("rehearse", "--check", dir, "--tdc", "3")
		require.Equal(t, failed, code)
		require.Empty(t, out)
		return errs
	}
	require.Contains(t, check(), "answer.toml: not found: make a practice job first")
	path := filepath.Join(dir, "answer.toml")
	for _, text := range []string{"limit_deg = nan\n", "limit_deg = inf\n", "limit_deg = 1\ntdc_deg = nan\n", "limit_deg = 1\n[[trap]]\ntdc_deg = inf\n", "limit_deg = 0\n", "limit_deg = 1\ntdc_deg = 1e9\n"} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		require.Contains(t, check(), "is not an answer that evendrop rehearse wrote", text)
	}
	require.NoError(t, os.WriteFile(path, bytes.Repeat([]byte("#"), 1<<20+1), 0o600))
	require.Contains(t, check(), "is larger than 1 MB")
}

// A practice job is written whole or not at all.
func TestRehearseLeavesNoHalf(t *testing.T) {
	dir := t.TempDir()
	code, _, errs := ev("rehearse", filepath.Join(dir, "lesson"), "--answer", filepath.Join(dir, "none", "answer.toml"))
	require.Equal(t, failed, code)
	require.Contains(t, errs, "its folder does not exist")
	require.NoDirExists(t, filepath.Join(dir, "lesson"))
}
