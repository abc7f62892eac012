package main

import (
	"encoding/json"
	"html"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// With the wrong word for counts late would be early: in every form that is the first
// thing said, with what to type, and nothing is judged, kept or compared.
func TestWrongCountsComeFirst(t *testing.T) {
	dir := bystander(t)
	path := filepath.Join(dir, "job.toml")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	wrong := strings.Replace(string(text), `counts = "with"`, `counts = "against"`, 1)
	require.NotEqual(t, string(text), wrong)
	require.NoError(t, os.WriteFile(path, []byte(wrong), 0o600))

	const first, cure = `The order of the readings contradicts counts = "against"`, `type counts = "with" under [protractor]`
	for _, as := range []string{"text", "markdown"} {
		code, out, errs := ev("find", path, "--as", as)
		require.Equal(t, answered, code, errs)
		_, body, _ := strings.Cut(out, "\n\n") // below the title
		body = strings.ReplaceAll(unwrapped(body), `\[`, "[")
		require.True(t, strings.HasPrefix(body, first), body[:200])
		require.Contains(t, body, cure)
		requireNoVerdict(t, body)
	}
	page := filepath.Join(dir, "page.html")
	code, _, errs := ev("find", path, "--page", page)
	require.Equal(t, answered, code, errs)
	written, err := os.ReadFile(page)
	require.NoError(t, err)
	shown := html.UnescapeString(string(written))
	require.Contains(t, shown, `<p class="finding">`+first)
	requireNoVerdict(t, shown[strings.Index(shown, "<body>"):strings.Index(shown, "What was used")])

	_, out, _ := ev("find", path, "--as", "json")
	var got struct {
		Cylinders []struct {
			CannotTell *string `json:"cannot_tell"`
			Warnings   []string
			GoBack     *struct{} `json:"go_back"`
		}
		Marks, Explanations []any
		Headline            *string
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Contains(t, got.Cylinders[0].Warnings[0], first)
	require.Contains(t, *got.Cylinders[0].CannotTell, cure)
	require.Nil(t, got.Cylinders[0].GoBack)
	require.Empty(t, got.Marks)
	require.Empty(t, got.Explanations)
	require.Nil(t, got.Headline)
	code, _, _ = ev("find", path, "--strict")
	require.Equal(t, notFine, code)
	for _, args := range [][]string{{"keep", path, filepath.Join(dir, "k.toml")}, {"recheck", filepath.Join(dir, "after.toml"), path}} {
		code, _, errs := ev(args...)
		require.Equal(t, failed, code)
		require.Contains(t, errs, cure)
	}
}

// Angles typed without their sign, on a scale that counts up both ways, lead to what to
// type, before any verdict.
func TestAnglesWithoutTheirSign(t *testing.T) {
	const rows = "angle,depth\n35,9.76\n29,7.17\n23,4.52\n17,2.49\n11,1.02\n11,1.02\n17,2.49\n23,4.52\n29,7.17\n35,9.76\n"
	const mark = "[[mark]]\nname = \"notch\"\non = \"pulley\"\nlimit = 1\nread = [3]\n"
	out := found(t, rows, "[protractor]\nwraps = 180\n"+mark)
	require.True(t, strings.HasPrefix(out, "True TDC cannot be determined from these readings: "), out)
	require.Contains(t, out, "r.csv lines 2 to 6 go against the way the crank was turned")
	require.Contains(t, out, "write 35 BTDC, or -35, in line 2, and the others likewise")
	requireNoVerdict(t, out)
	// sorted by depth, so that no order helps
	const pairs = "angle,depth\n35,9.76\n35,9.76\n29,7.17\n29,7.17\n23,4.52\n23,4.52\n17,2.49\n17,2.49\n11,1.02\n11,1.02\n"
	require.Contains(t, found(t, pairs, "[protractor]\nwraps = 180\n"+mark), "write 35 BTDC, or -35")
	// one row of 0 to 360
	one := strings.Replace(exactly, "337,4.52", "23,4.52", 1)
	require.Contains(t, found(t, one, mark), "r.csv line 4 (23 deg, forward) fits on the other side of the protractor's zero, and not where it was typed: "+
		"if it was read there, write 23 BTDC, or 337.")
}

// Of several cylinders the one whose order contradicts counts is named, and what was
// read of the others judges no mark and no throw: the protractor is the same.
func TestWrongCountsOfOneCylinder(t *testing.T) {
	dir := t.TempDir()
	rows := strings.Split(strings.TrimSpace(exactly), "\n")
	slices.Reverse(rows[1:])
	require.NoError(t, os.WriteFile(filepath.Join(dir, "1.csv"), []byte(exactly), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "2.csv"), []byte(strings.Join(rows, "\n")+"\n"), 0o600))
	path := filepath.Join(dir, "job.toml")
	text := "[engine]\nstroke = 86\nrod = 146\nthrow_limit = 0.5\n[[cylinder]]\nnumber = 1\nreadings = \"1.csv\"\n" +
		"[[cylinder]]\nnumber = 2\nthrow = 90\nreadings = \"2.csv\"\n" +
		"[[cylinder]]\nnumber = 3\nthrow = 90\nreadings = \"1.csv\"\n[[mark]]\nname = \"notch\"\non = \"pulley\"\nlimit = 1\nread = [5]\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	code, out, errs := ev("find", path)
	require.Equal(t, answered, code, errs)
	out = unwrapped(out)
	require.True(t, strings.HasPrefix(out, `Cylinder 2: the order of the readings contradicts counts = "with"`), out)
	requireNoVerdict(t, out)
	require.NotContains(t, out, "out of its place")
	require.NotContains(t, out, "notch")
	good := filepath.Join(dir, "good.toml")
	require.NoError(t, os.WriteFile(good, []byte(strings.ReplaceAll(text, "2.csv", "1.csv")), 0o600))
	for _, args := range [][]string{{"keep", path, filepath.Join(dir, "k.toml")}, {"recheck", path, good}, {"recheck", good, path}} {
		code, out, errs := ev(args...)
		require.Equal(t, failed, code, out)
		require.Contains(t, errs, `cylinder 2: the order of the readings contradicts counts = "with"`)
		require.NoFileExists(t, filepath.Join(dir, "k.toml"))
	}
}

// At the bench the same is said as soon as the order shows it, and nobody is sent to a
// side that may be the other.
func TestWrongCountsAtTheBench(t *testing.T) {
	jobFile, _ := newJob(t)
	lines := ""
	for _, u := range []float64{30, 26, 22, 18, 14, 10, -10, -14, -18} {
		lines += typedReading(u, "f") + "\n"
	}
	c := commandLine("jot", jobFile)
	c.Stdin = strings.NewReader(lines)
	out, err := c.Output()
	require.NoError(t, err)
	answers := strings.Split(unwrapped(string(out)), "Kept.")
	last := answers[len(answers)-1]
	require.Contains(t, last, "The order of the readings contradicts counts")
	require.NotContains(t, last, "Next:")
	require.NotContains(t, last, "rising side")
}

func requireNoVerdict(t *testing.T, said string) {
	t.Helper()
	for _, words := range []string{"deg late", "deg early", "outside its limit", "within its limit", "which points to", "pointer by", "Go back and see"} {
		require.False(t, strings.Contains(said, words), words)
	}
}
