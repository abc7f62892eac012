package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// inventedList writes an invented logic analyser's file: rows only when the crank's
// level changes, or the cam's, at a steady 600 rev/min; the crank has a tooth at each
// of the places, of ten degrees, that are not missing, and the cam is high from 40 to
// 140 deg of two turns.
func inventedList(t *testing.T, dir, name string, cam bool, missing ...int) string {
	t.Helper()
	gone := map[int]bool{}
	for _, m := range missing {
		gone[m] = true
	}
	var b strings.Builder
	b.WriteString("Time[s], Channel 0, Channel 1\n0, 0, 0\n")
	crank, camLevel := 0, 0
	for half := range 2 * 36 * 8 {
		angle := 5 * half
		if crank = half % 2; gone[half/2%36] {
			crank = 0
		}
		was := camLevel
		if camLevel = 0; cam && angle%720 >= 40 && angle%720 < 140 {
			camLevel = 1
		}
		if crank == 1 || half%2 == 0 && !gone[(half/2+35)%36] || camLevel != was {
			fmt.Fprintf(&b, "%.7f, %d, %d\n", 0.5+float64(angle)/3600, crank, camLevel)
		}
	}
	path := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o600))
	return path
}

// A list of changes of the crank alone: what was seen is said, in words and as JSON.
func TestEdgesOfTheCrankAlone(t *testing.T) {
	dir := t.TempDir()
	file := inventedList(t, dir, "list.csv", false, 17, 18, 34, 35)
	for _, told := range [][]string{nil, {"--wheel", "36-2-2"}, {"--wheel", "16x10,30,14x10,30"}} {
		code, out, errs := ev(append([]string{"edges", file, "--crank", "channel 0"}, told...)...)
		require.Equal(t, answered, code, errs)
		words := unwrapped(out)
		require.Contains(t, words, "32 teeth a turn")
		require.Contains(t, words, "600 to 600 rev/min")
		require.Contains(t, words, "The file is a list of changes: each row's time is taken as an edge.")
		require.Contains(t, words, "The gaps are of 30 deg after tooth 17 and of 30 deg after tooth 32.")
		require.Equal(t, told == nil, strings.Contains(words, "No --wheel was given: 16x10,30,14x10,30"))
	}
	code, out, errs := ev("edges", file, "--crank", "2", "--as", "json")
	require.Equal(t, answered, code, errs)
	var got struct {
		Wheel     string
		Intervals string `json:"wheel_intervals_deg"`
		Teeth     int    `json:"teeth_per_turn"`
		Turns     int    `json:"turns_used"`
		Capture   string
		Gaps      []struct {
			After int     `json:"after_tooth"`
			Gap   float64 `json:"gap_deg"`
		}
		Parts  int `json:"equal_parts"`
		Edges  []any
		Repeat *float64 `json:"teeth_repeat_deg"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Equal(t, "list of changes", got.Capture)
	require.Equal(t, "16x10,30,14x10,30", got.Intervals)
	require.Equal(t, 32, got.Teeth)
	require.Equal(t, 7, got.Turns)
	require.Equal(t, 1, got.Parts)
	require.Len(t, got.Gaps, 2)
	require.Equal(t, 17, got.Gaps[0].After)
	require.InDelta(t, 30, got.Gaps[0].Gap, 1e-9)
	require.NotNil(t, got.Edges)
	require.Empty(t, got.Edges)
	require.Less(t, *got.Repeat, 0.001)
	picture := filepath.Join(dir, "p.svg")
	code, _, errs = ev("edges", file, "--crank", "2", "--picture", picture)
	require.Equal(t, answered, code, errs)
	svg, err := os.ReadFile(picture)
	require.NoError(t, err)
	require.Contains(t, texts(t, string(svg))["desc"][0], "7 turns of 16x10,30,14x10,30")
}

// Equal parts: nothing is written into a job while nothing tells which is which.
func TestEdgesOfEqualParts(t *testing.T) {
	dir := t.TempDir()
	missing := []int{10, 11, 22, 23, 34, 35}
	alone := inventedList(t, dir, "alone.csv", false, missing...)
	code, _, errs := ev("edges", alone, "--crank", "2")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "alone.csv: column 2 does not tell its wheel: 10 teeth and a gap of 2 repeat in it")
	path := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte("angle,depth\n340,3\n350,0.9\n5,0.3\n15,2\n"), 0o600))
	require.NoError(t, os.WriteFile(path, []byte("[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n\n[drive]\nlayout = \"one cam\"\n"), 0o600))
	into := []string{"--wheel", "36-2-2-2", "--into", path, "--tooth", "1", "--at", "20"}
	code, _, errs = ev(append([]string{"edges", alone, "--crank", "2"}, into...)...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "3 equal parts and nothing tells which is which")
	both := inventedList(t, dir, "both.csv", true, missing...)
	code, out, errs := ev(append([]string{"edges", both, "--crank", "2", "--cam", "3"}, into...)...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, unwrapped(out), "the cams tell which is which")
	code, _, errs = ev("edges", both, "--crank", "2", "--cam", "3", "--wheel", "12-2")
	require.Equal(t, failed, code)
	require.Contains(t, errs, "the wheel cannot be 12-2: the cams repeat after 6 times 10 teeth")
}
