package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/plan"
)

// planAnswer is the plan as another program reads it.
type planAnswer struct {
	Format int
	Reach  struct {
		Standard float64  `json:"standard_uncertainty_deg"`
		Target   *float64 `json:"target_deg"`
		Reached  *bool    `json:"reached"`
	}
	Readings []struct {
		Drop  float64 `json:"drop_mm"`
		Angle float64 `json:"angle_deg"`
		Flank string
		Turn  string
	}
	Budget []struct {
		Source string
		Share  float64 `json:"contribution_deg"`
	}
	Even     float64  `json:"evenly_spaced_standard_uncertainty_deg"`
	OneWay   *float64 `json:"one_way_standard_uncertainty_deg"`
	Cautions []string
}

func planOf(t *testing.T, args ...string) planAnswer {
	t.Helper()
	code, out, errs := ev(append([]string{"plan", "--as", "json"}, args...)...)
	require.Equal(t, answered, code, errs)
	require.Empty(t, errs)
	var p planAnswer
	require.NoError(t, json.Unmarshal([]byte(out), &p))
	return p
}

// A job without readings has a plan: its budget adds up in quadrature to what it
// reaches, each drop is read on both flanks, and the target is said to be met or not.
func TestPlan(t *testing.T) {
	jobFile, _ := newJob(t)
	p := planOf(t, jobFile)
	require.Nil(t, p.Reach.Target)
	require.Nil(t, p.Reach.Reached)
	require.Len(t, p.Readings, plan.Usual)
	require.Less(t, p.Reach.Standard, p.Even)
	require.Less(t, p.Reach.Standard, *p.OneWay)
	require.Contains(t, strings.Join(p.Cautions, " "), "turn back only where the maker allows it")
	square := 0.0
	for _, c := range p.Budget {
		square += c.Share * c.Share
	}
	require.Greater(t, math.Sqrt(square), p.Reach.Standard) // the protractor's own error is in it
	require.InEpsilon(t, math.Hypot(p.Reach.Standard, 0.25/math.Sqrt(3)), math.Sqrt(square), 0.02)
	for _, r := range p.Readings {
		require.Equal(t, r.Angle > 0, r.Flank == "falling")
	}

	p = planOf(t, jobFile, "--target", "0.2")
	require.InDelta(t, 0.2, *p.Reach.Target, 1e-12)
	require.True(t, *p.Reach.Reached)
	require.LessOrEqual(t, p.Reach.Standard, 0.2)
	require.Nil(t, p.OneWay)
	require.NotContains(t, strings.Join(p.Cautions, " "), "turn back only")
	p = planOf(t, jobFile, "--target", "0.001")
	require.False(t, *p.Reach.Reached)

	p = planOf(t, jobFile, "--one-way", "--readings", "6", "--deepest", "3")
	require.Len(t, p.Readings, 6)
	for _, r := range p.Readings {
		require.Equal(t, "forward", r.Turn)
		require.LessOrEqual(t, r.Drop, 3.0)
	}
}

// Text and Markdown say it in words, CSV has a row a reading.
func TestPlanInEveryForm(t *testing.T) {
	jobFile, readings := newJob(t)
	require.NoError(t, os.Remove(readings)) // no file at all is as good as an empty one
	for _, as := range []string{"text", "markdown"} {
		code, out, errs := ev("plan", jobFile, "--as", as, "--target", "0.001")
		require.Equal(t, answered, code, errs)
		out = unwrapped(out)
		require.Contains(t, out, "0.001 deg is out of reach of these instruments")
		require.Contains(t, out, "Most of the uncertainty is the protractor's own error", "what limits it")
		require.Contains(t, out, "Most of the rest is in the angle readings")
		require.Contains(t, out, "spread evenly")
		require.Contains(t, out, "turn back only where the maker allows it")
	}
	code, out, errs := ev("plan", jobFile, "--as", "csv")
	require.Equal(t, answered, code, errs)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+plan.Usual)
}

func TestPlanCommandRefuses(t *testing.T) {
	jobFile, readings := newJob(t)
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{}, wrongUse, "plan needs a job. The folder you are in has no job.toml"},
		{[]string{jobFile, "--target", "0"}, wrongUse, "expected degrees"},
		{[]string{jobFile, "--target", "x"}, wrongUse, "expected degrees"},
		{[]string{jobFile, "--target", "0.1", "--readings", "8"}, wrongUse, "leave --readings out"},
		{[]string{jobFile, "--readings", "7"}, wrongUse, "even number from 8"},
		{[]string{jobFile, "--readings", "42"}, wrongUse, "to 40"},
		{[]string{jobFile, "--deepest", "-1"}, wrongUse, "expected a length"},
		{[]string{jobFile, "--deepest", "0.1"}, failed, "too little depth"},
		{[]string{jobFile, "--as", "pdf"}, wrongUse, "expected text, markdown, json or csv"},
		{[]string{filepath.Join(filepath.Dir(jobFile), "none.toml")}, failed, "evendrop begin DIR"},
	} {
		code, out, errs := ev(append([]string{"plan"}, c.args...)...)
		require.Equal(t, c.code, code, c.args)
		require.Empty(t, out)
		require.Contains(t, errs, c.says)
		require.Equal(t, 1, strings.Count(errs, "\n"))
	}
	// of a job in inches, in inches, and as deep as is asked for does
	inches := filepath.Join(t.TempDir(), "bench", "job.toml")
	require.NoError(t, runBegin([]string{filepath.Dir(inches), "--unit", "in", "--stroke", "3.4", "--rod", "5.75"}, newConsole(strings.NewReader(""), io.Discard, io.Discard, false)))
	code, _, errs := ev("plan", inches, "--deepest", "0.002")
	require.Equal(t, failed, code)
	least := numberIn(t, `0\.002 in is too little depth to plan in: expected at least (\S+) in`, errs)
	code, _, errs = ev("plan", inches, "--deepest", fmt.Sprint(least), "--one-way", "--readings", "6")
	require.Equal(t, answered, code, errs)

	code, _, errs = ev("jot", jobFile, "--cylinder", "2")
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, "--cylinder 2: the job has no such cylinder: expected 1\n")
	require.NoError(t, os.WriteFile(readings, []byte("angle,depth\n340,x\n"), 0o600))
	for _, command := range []string{"plan", "jot"} {
		code, out, errs := ev(command, jobFile)
		require.Equal(t, failed, code)
		require.Empty(t, out)
		require.Contains(t, errs, "cylinder-1.csv:2:5")
	}
}
