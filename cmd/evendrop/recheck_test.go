package main

import (
	"encoding/json"
	"testing"

	"evendrop/cmd/internal/flags"

	"github.com/stretchr/testify/require"
)

// The example's story: its flywheel was 2.8 deg late, and is refitted.
func TestRecheckTellsTheStory(t *testing.T) {
	before, after := diagnostician, story+"after.toml"
	code, out, errs := ev("recheck", before, after)
	require.Equal(t, answered, code, errs)
	within80(t, out)
	flat := unwrapped(out)
	require.Contains(t, flat, "flywheel refitted Before, the marks pointed to flywheel on crank, 2.8 ± 1.0 deg late. Now no joint has to have moved to explain them: that slip is gone, to within")
	require.Contains(t, flat, "Changed: locking pin hole and crank wheel gap. Unchanged: pulley notch and cam lock flats. Now: every mark is within its limit")
	code, _, errs = ev("recheck", before, after, "--strict")
	require.Equal(t, answered, code, errs)
	code, out, _ = ev("recheck", after, before, "--strict")
	require.Equal(t, notFine, code)
	require.Contains(t, unwrapped(out), "Before, no joint had to have moved to explain the marks. Changed: locking pin hole")

	code, out, errs = ev("recheck", before, after, "--as", "json")
	require.Equal(t, answered, code, errs)
	var got struct {
		TDC struct {
			Before float64 `json:"before_deg"`
			After  float64 `json:"after_deg"`
		} `json:"tdc"`
		Marks []struct {
			Name     string  `json:"name"`
			Before   float64 `json:"before_deg"`
			After    float64 `json:"after_deg"`
			Change   float64 `json:"change_deg"`
			Expanded float64 `json:"expanded_uncertainty_deg"`
			Verdict  string  `json:"verdict"`
		} `json:"marks"`
		Back []string `json:"back"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.InDelta(t, 3.4, got.TDC.Before, 0.1) // as the example's readings were made, to their ±
	require.InDelta(t, 358.7, got.TDC.After, 0.1)
	require.Equal(t, "locking pin hole", got.Marks[0].Name)
	require.Equal(t, "changed", got.Marks[0].Verdict)
	require.Equal(t, "unchanged", got.Marks[1].Verdict)
	for _, m := range got.Marks {
		require.InDelta(t, m.After-m.Before, m.Change, 1e-9)
	}
	require.Len(t, got.Back, 1)
	for _, as := range flags.Formats {
		code, out, errs := ev("recheck", before, after, "--as", as)
		require.Equal(t, answered, code, errs)
		require.Contains(t, out, "locking pin hole")
	}
}

// A repair that mended one of two faults, and marks that only one job has.
func TestRecheckHalfMended(t *testing.T) {
	both, wheel := engine(t, "job.toml", 0, .1, 18.1, 17.8, 6.1, 5.9), engine(t, "job.toml", 0, .2, -.2, .1, -11.9, -12.1)
	code, out, errs := ev("recheck", both, wheel)
	require.Equal(t, answered, code, errs)
	flat := unwrapped(out)
	require.Contains(t, flat, "12.0 ± 1.3 deg late. Now they still point to it, 12.0 ± 0.9 deg late: that slip is still there.")
	require.Contains(t, flat, "18.0 ± 0.9 deg late. Now they no longer do: as far as they show, that slip is gone.")
	code, out, errs = ev("recheck", both, diagnostician)
	require.Equal(t, answered, code, errs)
	flat = unwrapped(out)
	require.Contains(t, flat, "The two jobs have no mark in common")
	require.Contains(t, flat, "Measured only before, and not compared: P, N, CI, CE, WI, WE.")
	require.Contains(t, flat, "Measured only after, and not compared: locking pin hole")
}

// Every mark may be within its limit now, and whether one has moved be open: known
// to half a degree twice, a change of 0.45 may be zero or past the limit of 1.
func TestRecheckTooClose(t *testing.T) {
	before, after := engine(t, "job.toml", 0, 0, 0, 0, 0, 0), engine(t, "job.toml", 0, 0, .45, 0, 0, 0)
	code, out, errs := ev("recheck", before, after, "--strict")
	require.Equal(t, notFine, code, errs)
	require.Contains(t, unwrapped(out), "Too close to call: CI. Now: every mark is within its limit")
	code, _, errs = ev("recheck", before, before, "--strict")
	require.Equal(t, answered, code, errs)
}
