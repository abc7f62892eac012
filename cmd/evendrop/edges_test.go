package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
)

// invented writes an invented capture: a 60-2 wheel at a steady 600 rev/min,
// sampled every 0.1 deg, its cams high from 40 to 140 and 500 to 600 deg of two
// turns, each moved by a shift.
func invented(t *testing.T, dir, name string, inlet, exhaust float64) string {
	t.Helper()
	high := func(angle, shift float64) int {
		if a := angle - shift; (a >= 40 && a < 140) || (a >= 500 && a < 600) || (a >= 250 && a < 270) {
			return 5
		}
		return 0
	}
	var b bytes.Buffer
	b.WriteString("Time;Crank;Inlet;Exhaust\n(ms);(V);(V);(V)\n\n")
	for i := range 34000 {
		angle := float64(i%7200) / 10
		crank := 0
		if turn := i % 3600; turn < 3480 && turn%60 < 30 {
			crank = 5
		}
		fmt.Fprintf(&b, "%d,%05d;%d;%d;%d\n", i/36, i%36*100000/36, crank, high(angle, inlet), high(angle, exhaust))
	}
	path := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o600))
	return path
}

var edgesFlags = []string{"--time", "1", "--crank", "2", "--cam", "3", "--cam", "4", "--wheel", "60-2"}

func edgesOf(file string, more ...string) []string {
	return append(append([]string{"edges", file}, edgesFlags...), more...)
}

// Sampled every 0.1 deg without a ramp, an edge is timed to half of that.
const sampled = 0.05 + 1e-6

func TestEdgesCommand(t *testing.T) {
	dir := t.TempDir()
	before, after := invented(t, dir, "before.csv", 0, 0), invented(t, dir, "after.csv", 18, 0)
	code, out, errs := ev(edgesOf(after, "--as", "json", "--against", before)...)
	require.Equal(t, answered, code, errs)
	require.Empty(t, errs)
	var got struct {
		Program      string  `json:"program"`
		Format       int     `json:"format"`
		TeethPerTurn int     `json:"teeth_per_turn"`
		TurnsUsed    int     `json:"turns_used"`
		TurnsLeftOut int     `json:"turns_left_out"`
		RPMMin       float64 `json:"rpm_min"`
		RPMMax       float64 `json:"rpm_max"`
		Edges        []struct {
			Channel   int      `json:"channel"`
			Kind      string   `json:"kind"`
			Angle     float64  `json:"crank_deg_after_gap"`
			Teeth     float64  `json:"teeth_after_gap"`
			Deviation *float64 `json:"standard_deviation_deg"`
			Count     int      `json:"count"`
		} `json:"edges"`
		Against struct {
			Finding  string `json:"finding"`
			Findings []struct {
				Kind   string  `json:"kind"`
				Words  string  `json:"words"`
				Column int     `json:"column"`
				Shift  float64 `json:"shift_deg"`
				Wheel  string  `json:"wheel"`
			} `json:"findings"`
			Shifts []struct {
				Channel int     `json:"channel"`
				Shift   float64 `json:"shift_deg"`
				Moved   bool    `json:"moved"`
			} `json:"shifts"`
		} `json:"against"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Equal(t, "evendrop", got.Program)
	require.Equal(t, 1, got.Format)
	require.Equal(t, 58, got.TeethPerTurn)
	require.Equal(t, 8, got.TurnsUsed)
	require.Zero(t, got.TurnsLeftOut)
	require.InDelta(t, 600, got.RPMMin, 6) // 0.1 of 12 deg
	require.InDelta(t, 600, got.RPMMax, 6)
	require.Len(t, got.Edges, 12)
	for i, want := range []struct {
		channel int
		kind    string
		angle   float64
	}{
		{3, "rising", 58}, {3, "falling", 158}, {3, "rising", 268}, {3, "falling", 288}, {3, "rising", 518}, {3, "falling", 618},
		{4, "rising", 40}, {4, "falling", 140}, {4, "rising", 250}, {4, "falling", 270}, {4, "rising", 500}, {4, "falling", 600},
	} {
		require.Equal(t, want.channel, got.Edges[i].Channel)
		require.Equal(t, want.kind, got.Edges[i].Kind)
		require.InDelta(t, want.angle, got.Edges[i].Angle, 2*sampled)
		require.NotNil(t, got.Edges[i].Deviation)
		require.InDelta(t, 4, got.Edges[i].Count, 0.5)
		require.InDelta(t, map[int]float64{3: 18, 4: 0}[want.channel], got.Against.Shifts[i].Shift, 2*sampled)
		require.Equal(t, want.channel == 3, got.Against.Shifts[i].Moved)
	}
	require.InDelta(t, 58.0/6, got.Edges[0].Teeth, 0.02)
	require.Contains(t, got.Against.Finding, "One cam alone moved, column 3")
	require.Len(t, got.Against.Findings, 1)
	found := got.Against.Findings[0]
	require.Equal(t, "one cam moved", found.Kind)
	require.Equal(t, got.Against.Finding, found.Words)
	require.Equal(t, 3, found.Column)
	require.InDelta(t, 18, found.Shift, 2*sampled)
	require.Equal(t, "60-2", found.Wheel)
}

func TestEdgesInEveryForm(t *testing.T) {
	dir := t.TempDir()
	before, after := invented(t, dir, "before.csv", 0, 0), invented(t, dir, "after.csv", -12, -12)
	for as, says := range map[string]string{
		"text": "58 teeth a turn (60-2), 8 turns used", "markdown": "| 3 Inlet   |  rising |", "csv": "3,Inlet,rising,2", "json": `"teeth_per_turn": 58`,
	} {
		code, out, errs := ev(edgesOf(after, "--as", as, "--against", before)...)
		require.Equal(t, answered, code, errs)
		require.Contains(t, out, says)
		if as == "text" {
			require.Contains(t, unwrapped(out), "All edges of all cams moved together, by 12.0 ± 0.1 crank deg early")
			require.Contains(t, out, "Caution")
			for line := range strings.Lines(out) {
				require.LessOrEqual(t, len([]rune(line)), 80)
			}
		}
	}
}

// What --marks prints is read back by a job, with the shift and its half-width.
func TestEdgesAsMarks(t *testing.T) {
	dir := t.TempDir()
	before, after := invented(t, dir, "before.csv", 0, 0), invented(t, dir, "after.csv", 18, 0)
	code, out, errs := ev(edgesOf(after, "--against", before, "--marks", "--on", "inlet wheel", "--on", "exhaust wheel")...)
	require.Equal(t, answered, code, errs)
	path := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte("angle,depth\n340,3\n350,0.9\n5,0.3\n15,2\n"), 0o600))
	text := "[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n\n[drive]\nlayout = \"two cams\"\n\n" + out
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	j, err := job.Open(path)
	require.NoError(t, err, out)
	require.Len(t, j.Marks, 2) // the edges of a cam moved together: one mark
	require.Equal(t, "inlet wheel", j.Marks[0].On)
	require.Equal(t, "exhaust wheel", j.Marks[1].On)
	require.Equal(t, "crank wheel", j.Marks[0].Against)
	require.InDelta(t, 18, j.Marks[0].Off.Value, 2*sampled)
	require.InDelta(t, 0, j.Marks[1].Off.Value, 2*sampled)
	require.Greater(t, j.Marks[0].Off.KnownTo, 0.0)
	require.False(t, j.Marks[0].Unknown)

	code, out, errs = ev(edgesOf(after, "--marks")...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "off = 58.0")
	require.Contains(t, out, `on = "exhaust wheel"`)
	require.Equal(t, 12, strings.Count(out, `should_be = "unknown"`))
}

func TestEdgesRefused(t *testing.T) {
	dir := t.TempDir()
	good := invented(t, dir, "good.csv", 0, 0)
	bad := filepath.Join(dir, "bad.csv")
	require.NoError(t, os.WriteFile(bad, []byte("s,V,V\n0,1,2\n1,2,1\n2,1,2\n3,x,1\n"), 0o600))
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"edges"}, wrongUse, "edges takes one capture, and was given 0 files"},
		{[]string{"edges", good, good}, wrongUse, "was given 2 files"},
		{[]string{"edges", good}, wrongUse, "--crank 2"},
		{[]string{"edges", good, "--crank", "2", "--against", good}, wrongUse, "--cam 3"},
		{[]string{"edges", good, "--crank", "2", "--marks"}, wrongUse, "--cam 3"},
		{[]string{"edges", good, "--crank", "2", "--into", "job.toml"}, wrongUse, "--cam 3"},
		{edgesOf("-"), wrongUse, "save it and name the file"},
		{[]string{"edges", good, "--crank", "2", "--cam", "2", "--wheel", "60-2"}, wrongUse, "column 2 is given twice"},
		{[]string{"edges", good, "--crank", "1", "--cam", "2", "--wheel", "60-2"}, wrongUse, "column 1 is given twice"},
		{[]string{"edges", good, "--crank", "0", "--cam", "2", "--wheel", "60-2"}, wrongUse, "expected a number from 1"},
		{[]string{"edges", good, "--crank", "2", "--cam", "3", "--wheel", "60-2-2"}, failed, "shows no turn of 60-2-2; what repeats in it, damaged or not, is 60-2: if that is the wheel, type --wheel 60-2"},
		{[]string{"edges", good, "--crank", "2", "--cam", "3", "--wheel", "60"}, wrongUse, "--wheel 60: expected pitches-missing"},
		{edgesOf(good, "--as", "pdf"), wrongUse, "expected text, markdown, json or csv"},
		{edgesOf(good, "--marks", "--as", "csv"), wrongUse, "leave --as out"},
		{edgesOf(good, "--on", "inlet wheel"), wrongUse, "--on goes with --marks"},
		{edgesOf(good, "--crank-edge", "steep"), wrongUse, "expected rising or falling"},
		{edgesOf(good, "--time-unit", "min"), wrongUse, "expected s, ms, us, ns or samples"},
		{edgesOf(good, "--time-unit", "samples"), wrongUse, "needs the rate"},
		{edgesOf(good, "--rate", "-5"), wrongUse, "expected samples a second"},
		{edgesOf(filepath.Join(dir, "none.csv")), failed, "none.csv"},
		{edgesOf(dir), failed, "is a folder: name a file in it"},
		{edgesOf(bad, "--cam", "5"), failed, "bad.csv:1: no 3 rows on end have numbers in columns 1, 2, 3, 4, 5; this line has 3 columns"},
		{[]string{"edges", bad, "--crank", "2", "--cam", "3", "--wheel", "60-2"}, failed, "bad.csv:5: column 2: \"x\" is not a number"},
		{[]string{"edges", good, "--crank", "2", "--cam", "3", "--wheel", "36-1"}, failed, "type --wheel 60-2"},
		{[]string{"edges", good, "--crank", "3", "--cam", "2", "--wheel", "60-2"}, failed, "choose another column with --crank"},
		{edgesOf(good, "--against", bad), failed, "bad.csv"},
	} {
		code, out, errs := ev(c.args...)
		require.Equal(t, c.code, code, "%v: %s", c.args, errs)
		require.Empty(t, out, c.args)
		require.Contains(t, errs, c.says, c.args)
		require.Equal(t, 1, strings.Count(errs, "\n"), errs)
	}
}

// Rows alone, with their rate, tell time as well.
func TestEdgesByRate(t *testing.T) {
	good := invented(t, t.TempDir(), "good.csv", 0, 0)
	code, out, errs := ev("edges", good, "--rate", "36000", "--crank", "Crank", "--cam", "inlet", "--wheel", "60-2")
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "600 rev/min")
}

// A tooth that leads late in every turn is numbered as a person counts, from 1.
func TestEdgesNamesAChippedTooth(t *testing.T) {
	path := invented(t, t.TempDir(), "chipped.csv", 0, 0)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	lines := strings.Split(string(data), "\n")
	for i := range lines[3:] {
		if turn := i % 3600; turn >= 1200 && turn < 1210 { // the 21st tooth's first degree
			lines[i+3] = strings.Replace(lines[i+3], ";5;", ";0;", 1)
		}
	}
	require.NoError(t, os.WriteFile(path, []byte(strings.Join(lines, "\n")), 0o600))
	code, out, errs := ev(edgesOf(path, "--as", "json")...)
	require.Equal(t, answered, code, errs)
	var got struct {
		Rough []struct {
			Tooth int     `json:"tooth"`
			Off   float64 `json:"off_deg"`
		} `json:"rough_teeth"`
		Notes []string `json:"notes"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Rough, 1)
	require.Equal(t, 21, got.Rough[0].Tooth)
	require.InDelta(t, 1, got.Rough[0].Off, 2*sampled)
	require.Contains(t, got.Notes[0], "Tooth 21 stands 1.0 deg late")
}
