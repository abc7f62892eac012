package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/flags"
)

// lobeMarked is what a learner's answer about a lobe came to.
type lobeMarked struct {
	Lobe    string
	Answers []struct {
		What, Verdict string
		Truth         float64 `json:"truth_deg"`
		Off           float64 `json:"off_deg"`
		Limit         float64 `json:"limit_deg"`
		Near          *string
	}
	Fault *struct {
		Given, Truth string
		Right        bool
		Lost         float64 `json:"lift_lost_mm"`
	}
	Traps []struct{ Name, What string }
}

func markLobe(t *testing.T, folder string, args ...string) (m lobeMarked) {
	t.Helper()
	code, out, errs := ev(append([]string{"rehearse", "--check", folder, "--as", "json"}, args...)...)
	require.Equal(t, answered, code, errs)
	require.NoError(t, json.Unmarshal([]byte(out), &m))
	return m
}

// What find says of practice lobes is right by their answers, whatever befell them; and
// the piston's readings are the same with a lobe as without.
func TestRehearseLobes(t *testing.T) {
	dir := t.TempDir()
	for _, seed := range []string{"1", "2", "3", "4", "5", "6"} {
		folder := filepath.Join(dir, seed)
		code, out, errs := ev("rehearse", folder, "--seed", seed, "--turn", "both", "--lobe", "both")
		require.Equal(t, answered, code, errs)
		require.Contains(t, unwrapped(out), "The lifts of the exhaust lobe are in "+filepath.Join(folder, "exhaust.csv"))
		require.Contains(t, unwrapped(out), "--check "+folder+" --lobe exhaust --late DEG --fault moved")
		found := lobesFound(t, filepath.Join(folder, "job.toml"))
		require.Len(t, found.Lobes, 2)
		for i, valve := range []string{"inlet", "exhaust"} {
			l := found.Lobes[i]
			number := func(x *float64) string { return strconv.FormatFloat(*x, 'f', 4, 64) }
			m := markLobe(t, folder, "--lobe", valve, "--late", number(l.Shift), "--opens", number(l.Opens), "--closes", number(l.Closes), "--centre", number(l.Centre), "--fault", "moved")
			require.Equal(t, valve+" lobe", m.Lobe)
			require.Len(t, m.Answers, 4)
			for _, a := range m.Answers {
				require.Equal(t, "within", a.Verdict, "seed %s, %s", seed, a.What)
				require.Less(t, a.Limit, 1.6, "as find promises")
			}
			require.Equal(t, m.Fault.Truth == "moved", m.Fault.Right)
			require.Equal(t, m.Fault.Truth == "lift", m.Fault.Lost > 0)
		}
		plain := filepath.Join(dir, "plain")
		code, _, errs = ev("rehearse", plain, "--seed", seed, "--turn", "both", "--replace")
		require.Equal(t, answered, code, errs)
		with, err := os.ReadFile(filepath.Join(folder, "cylinder-1.csv"))
		require.NoError(t, err)
		without, err := os.ReadFile(filepath.Join(plain, "cylinder-1.csv"))
		require.NoError(t, err)
		require.Equal(t, string(without), string(with))
	}
}

// The job tells nothing of what befell the cam; the answer does; a wrong answer is laid to
// its trap, and only the traps of what was asked are told.
func TestRehearseLobeCheck(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "lesson")
	code, _, errs := ev("rehearse", folder, "--seed", "7", "--lobe", "inlet", "--lift-lost", "0.25")
	require.Equal(t, answered, code, errs)
	for _, name := range []string{"job.toml", "inlet.csv"} {
		data, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		require.True(t, strings.HasPrefix(strings.ToLower(string(data)), "# "), name)
		for _, secret := range []string{"seed", "fault", "0.25\n", "lost"} {
			require.NotContains(t, strings.ReplaceAll(string(data), "error = 0.25", ""), secret, name)
		}
	}
	m := markLobe(t, folder, "--late", "0", "--fault", "lift")
	require.Equal(t, "within", m.Answers[0].Verdict)
	require.True(t, m.Fault.Right)
	opening := m.Answers[0].Truth
	for _, trap := range m.Traps {
		require.Equal(t, "late", trap.What)
	}
	_, text, _ := ev("rehearse", "--check", folder, "--late", "4.4", "--fault", "both")
	text = unwrapped(text)
	require.Contains(t, text, "Outside: a cam late by 4.4 deg is 4.40 deg later than the truth, which is 0.00 deg. Up to 0.")
	require.Contains(t, text, "Wrong: the cam had not moved, and 0.25 mm of lift was missing. Opening came late and closing early.")
	require.Contains(t, text, "where this trap leads: the opening alone. Lift that is missing")
	require.Contains(t, text, "never turn the engine by a cam")
	require.NotRegexp(t, `(centre|opens|closes) +[-0-9]`, text, "the traps of what was not asked")
	require.Zero(t, opening)
	m = markLobe(t, folder, "--opens", "6 BTDC")
	require.Nil(t, m.Fault)
	_, text, _ = ev("rehearse", "--check", folder, "--opens", "1 BTDC", "--centre", "111 ATDC", "--closes", "46 ABDC")
	require.Regexp(t, `opening at 1 BTDC is \d\.\d\d deg (later|earlier) than the truth, which is \d\.\d+ [AB]TDC`, unwrapped(text))
	require.Regexp(t, `a centre at 111 ATDC is .* than the truth, which is 1\d\d\.?\d* ATDC`, unwrapped(text))
	require.Regexp(t, `closing at 46 ABDC is .* than the truth, which is \d\d\.?\d* ABDC`, unwrapped(text))
	for _, as := range flags.Formats {
		code, out, errs := ev("rehearse", "--check", folder, "--late", "9", "--fault", "moved", "--as", as)
		require.Equal(t, answered, code, errs)
		require.Contains(t, strings.ToLower(out), "outside", as)
		if as != "json" {
			require.Contains(t, strings.ToLower(out), "wrong", as)
		}
	}
	for fault, words := range map[string]string{"0": "nothing was wrong with this cam.", "-4": "the cam had moved, by -4.0 deg, and no lift was missing."} {
		code, _, errs := ev("rehearse", folder, "--lobe", "exhaust", "--cam-late", fault, "--replace")
		require.Equal(t, answered, code, errs)
		_, text, _ := ev("rehearse", "--check", folder, "--fault", "both")
		require.Contains(t, unwrapped(text), "Wrong: "+words)
	}
	code, _, errs = ev("rehearse", folder, "--lobe", "exhaust", "--cam-late", "3", "--lift-lost", "0.2", "--replace")
	require.Equal(t, answered, code, errs)
	_, text, _ = ev("rehearse", "--check", folder, "--fault", "both")
	require.Contains(t, unwrapped(text), "Right: the cam had moved, by +3.0 deg, and 0.20 mm of lift was missing as well.")
}

func TestRehearseLobeRefuses(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for folder, lobe := range map[string]string{"one": "inlet", "two": "both"} {
		code, _, errs := ev("rehearse", folder, "--lobe", lobe)
		require.Equal(t, answered, code, errs)
	}
	code, _, errs := ev("rehearse", "none")
	require.Equal(t, answered, code, errs)
	for _, c := range []struct{ args, says string }{
		{"a --lobe left", "expected inlet, exhaust or both"},
		{"a --lobe inlet --cam-late 46", "from -45 to 45"},
		{"a --lobe inlet --cam-late x", "from -45 to 45"},
		{"a --lobe inlet --lift-lost x", "expected a length such as 0.2"},
		{"a --lobe inlet --lift-lost 0.6", "expected 0 to 0.5 mm"},
		{"a --cam-late 3", "needs a lobe to show it"},
		{"a --lobe inlet --answer a/inlet.csv", "the job itself is written there"},
		{"a --late 3", "--check DIR"},
		{"--fault moved", "--check DIR"},
		{"--check one", "--late 3.4"},
		{"--check one --lobe inlet", "--late 3.4"},
		{"--check one --late x", "expected crank degrees"},
		{"--check one --fault x", "expected nothing, moved, lift or both"},
		{"--check one --late 3 --tdc 4", "one by one"},
		{"--check one b --late 3", "one folder"},
		{"--check one --late 3 --lobe exhaust", "has no exhaust lobe"},
		{"--check two --late 3", "say --lobe inlet or --lobe exhaust"},
		{"--check two --late 3 --lobe both", "say --lobe inlet or --lobe exhaust"},
		{"--check none --late 3", "has no lobe: make one with --lobe inlet"},
	} {
		code, out, errs := ev(append([]string{"rehearse"}, strings.Fields(c.args)...)...)
		require.Equal(t, wrongUse, code, "%s: %s", c.args, errs)
		require.Empty(t, out, c.args)
		require.Contains(t, errs, c.says, c.args)
		require.Equal(t, 1, strings.Count(errs, "\n"), errs)
		require.NoDirExists(t, "a", c.args)
	}
	answer, err := os.ReadFile("one/answer.toml")
	require.NoError(t, err)
	spoilt := strings.Replace(string(answer), "fault = '", "fault = 'un", 1)
	require.NotEqual(t, string(answer), spoilt)
	require.NoError(t, os.WriteFile("one/answer.toml", []byte(spoilt), 0o600))
	code, _, errs = ev("rehearse", "--check", "one", "--late", "3")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "is not an answer that evendrop rehearse wrote")
	code, _, errs = ev("rehearse", "two", "--lobe", "inlet")
	require.Equal(t, failed, code, "lifts are not written over")
	require.Contains(t, errs, "--replace")
	require.NoError(t, os.WriteFile("none/inlet.csv", []byte("mine"), 0o600))
	code, _, errs = ev("rehearse", "none", "--lobe", "inlet", "--replace")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "inlet.csv: was not written by evendrop rehearse")
}
