package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// planLobes is what a plan says of lobes.
type planLobes struct {
	Lobes []struct {
		Name  string
		Lifts []struct {
			Flank      string
			Lift       float64  `json:"lift_mm"`
			Angle      *float64 `json:"angle_deg"`
			Protractor *float64 `json:"protractor_deg"`
			Read       bool
		}
		Left  []int
		Reach struct {
			Shift *struct {
				Known float64 `json:"expanded_uncertainty_deg"`
				Agree float64 `json:"readings_expanded_deg"`
			}
		}
		Findings, Lacking []struct{ Kind, Words string }
	}
}

func lobesPlanned(t *testing.T, args ...string) (p planLobes) {
	t.Helper()
	code, out, errs := ev(append([]string{"plan", "--as", "json"}, args...)...)
	require.Equal(t, answered, code, errs)
	require.NoError(t, json.Unmarshal([]byte(out), &p))
	return p
}

// blank is a job of the invented case whose files are all still to be written.
func blank(t *testing.T, tables string) (file string) {
	t.Helper()
	file = lobesJob(t, tables, nil)
	for _, name := range []string{"r.csv", "inlet.csv", "exhaust.csv"} {
		require.NoError(t, os.Remove(filepath.Join(filepath.Dir(file), name)))
	}
	return file
}

// What a plan foresees is what find then says of readings so taken, and the readings are
// the plan's own: a plan followed leaves nothing to be read.
func TestPlanOfLobesHolds(t *testing.T) {
	file := blank(t, inletLobe+"top = 9.2\n"+exhaustLobe+"top = 9.2\n")
	first := lobesPlanned(t, file)
	require.Len(t, first.Lobes, 2)
	for i, l := range first.Lobes {
		require.Len(t, l.Left, len(l.Lifts))
		var rows strings.Builder
		for _, lift := range l.Lifts {
			require.Nil(t, lift.Protractor)
			at := *lift.Angle + 2.4 // where the protractor has TDC
			fmt.Fprintf(&rows, "%.1f,%.2f\n", at-360*float64(int(at/360))+360*float64(btoi(at < 0)), lift.Lift)
		}
		name := []string{"inlet.csv", "exhaust.csv"}[i]
		require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), name), []byte("angle,lift\n"+rows.String()), 0o600))
	}
	var piston strings.Builder
	for _, line := range atTop(t, 2.4) {
		fmt.Fprintln(&piston, strings.Replace(line, " ", ",", 1))
	}
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(file), "r.csv"), []byte("angle,depth\n"+piston.String()), 0o600))
	out := lobesFound(t, file)
	then := lobesPlanned(t, file)
	for i, l := range first.Lobes {
		require.InDelta(t, 0, *out.Lobes[i].Shift, 0.1, l.Name) // lifts are written to a hundredth: 0.1 deg
		for _, m := range out.Marks {
			if m.Name == l.Name {
				require.InEpsilon(t, l.Reach.Shift.Known, m.Expanded, 0.1) // its piston was read otherwise
			}
		}
		require.Empty(t, then.Lobes[i].Left, l.Name)
		require.Empty(t, then.Lobes[i].Lacking)
		for k, lift := range then.Lobes[i].Lifts {
			require.True(t, lift.Read)
			require.InDelta(t, *l.Lifts[k].Angle, *lift.Angle, 1)
			require.InDelta(t, 2.4, *lift.Protractor-*lift.Angle-360*float64(btoi(*lift.Angle < -2.4)), 0.1, "on the protractor")
		}
	}
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// On any protractor, in any form, in inches and on a narrow terminal.
func TestPlanOfLobesEverywhere(t *testing.T) {
	for _, wraps := range []string{"360", "180", "90", "720"} {
		file := blank(t, "")
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		text := strings.Replace(string(data), "[gauge]", "[protractor]\nwraps = "+wraps+"\n[gauge]", 1) + inletLobe + strings.Replace(exhaustLobe, "opens = \"50 BBDC\"\ncloses = \"10 ATDC\"\n", "", 1)
		require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
		p := lobesPlanned(t, file, "--one-way", "--target", "0.2")
		require.InDelta(t, 0.45, p.Lobes[0].Reach.Shift.Known, 0.1, wraps)
		require.Nil(t, p.Lobes[1].Reach.Shift)
		require.Equal(t, "lobe without a card", p.Lobes[1].Findings[1].Kind)
		code, out, errs := evIn(80, "plan", file)
		require.Equal(t, answered, code, errs)
		for line := range strings.Lines(out) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 80, out)
		}
		code, _, errs = ev("plan", file, "--as", "csv")
		require.Equal(t, answered, code, errs)
	}
	inches := blank(t, strings.Replace(inletLobe, "lift = 1.0", "lift = 0.05", 1))
	data, err := os.ReadFile(inches)
	require.NoError(t, err)
	text := strings.NewReplacer("[engine]", "unit = \"in\"\n[engine]", "86.0", "3.4", "146.0", "5.75", "0.02", "0.001").Replace(string(data))
	require.NoError(t, os.WriteFile(inches, []byte(text), 0o600))
	_, out, _ := ev("plan", inches)
	require.Contains(t, out, "lift, in")
	require.NotRegexp(t, `\d mm\b`, out)
	require.Contains(t, unwrapped(out), "0.3543 in is taken for it")
}
