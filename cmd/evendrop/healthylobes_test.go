package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A healthy engine's lobes are kept as curves, and an engine in doubt is laid on them in
// place of a card: moved by a tooth, and with lift that is missing.
func TestLobesAgainstAHealthyEngine(t *testing.T) {
	noCard := strings.NewReplacer("opens = \"12 BTDC\"\n", "", "closes = \"48 ABDC\"\n", "", "opens = \"50 BBDC\"\n", "", "closes = \"10 ATDC\"\n", "").Replace
	known := filepath.Join(t.TempDir(), "good.toml")
	sound := lobesJob(t, noCard(inletLobe+exhaustLobe), map[string]string{"inlet.csv": later(inletLifts, -toothOf21), "exhaust.csv": later(exhaustLifts, -toothOf21)})
	code, text, errs := ev("keep", sound, known)
	require.Equal(t, answered, code, errs)
	require.Contains(t, flat(text), "inlet lobe: its curve, by 10 readings on its flanks")

	out := lobesFound(t, sound, "--against", known)
	for _, l := range out.Lobes {
		require.InDelta(t, 0, *l.Shift, 0.01) // itself; a flank is smoothed, and passes its own points so closely
		require.Equal(t, "within", *l.Verdict)
	}
	moved := lobesJob(t, lockingPin+noCard(inletLobe+exhaustLobe), map[string]string{"inlet.csv": lower(inletLifts, 0.1)})
	out = lobesFound(t, moved, "--against", known)
	require.InDelta(t, toothOf21, *out.Lobes[0].Shift, 0.3) // what a tenth of a millimetre does between its readings
	require.InDelta(t, 0.1, *out.Lobes[0].Offset, 0.02)
	require.InDelta(t, toothOf21, *out.Lobes[1].Shift, 1e-2)
	require.Len(t, out.Marks, 3)
	require.InDelta(t, *out.Lobes[1].Shift, *out.Marks[2].Off, 1e-9)
	require.ElementsMatch(t, []string{"drive on crank sprocket", "crank sprocket on crank"}, out.Explanations[0].Slips[0].Joints)
	require.Equal(t, "lift offset", out.Lobes[0].Findings[0].Kind)
	_, text, _ = ev("find", moved, "--against", known, "--details")
	require.Contains(t, flat(text), "compared with should_be: locking pin.")
	require.Contains(t, flat(text), "compared with a healthy engine's")
	require.Contains(t, flat(text), "inlet lobe: It lifts")
	carded := lobesJob(t, inletLobe, map[string]string{"inlet.csv": lower(inletLifts, 0.1)})
	for _, args := range [][]string{nil, {"--against", known}} { // by the card, or by the healthy engine in its place
		offsets := 0
		for _, f := range lobesFound(t, append([]string{carded}, args...)...).Lobes[0].Findings {
			if f.Kind == "lift offset" {
				offsets++
			}
		}
		require.Equal(t, 1, offsets, args)
	}

	code, _, errs = ev("find", lobesJob(t, strings.Replace(inletLobe, "inlet cam", "exhaust cam", 1), nil), "--against", known)
	require.Equal(t, failed, code)
	require.Contains(t, errs, `job.toml:16: lobe "inlet lobe": it is an inlet lobe on the exhaust cam here, and an inlet lobe on the inlet cam there`)
	code, _, errs = ev("find", lobesJob(t, strings.Replace(inletLobe, "inlet lobe", "another", 1), nil), "--against", known)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "none of the job's marks is in")
	text = filepath.Join(t.TempDir(), "bad.toml")
	for _, points := range []string{"[]", "[[1, 2]]", "[[1, 2, 0]]", "[[nan, 2, 1]]", "[[1e9, 2, 1]]", "3"} {
		require.NoError(t, os.WriteFile(text, []byte("[[lobe]]\nname = \"a\"\non = \"cam\"\nvalve = \"inlet\"\ntop_mm = 9\nclosing = [[1, 1, 1]]\nopening = "+points+"\n"), 0o600))
		code, _, errs = ev("find", sound, "--against", text)
		require.Equal(t, failed, code)
		require.Contains(t, errs, "bad.toml:7:", points)
	}
}

// Several healthy engines are kept as one mean, and an engine in doubt is compared with
// that: of two a degree apart by half of it on either side, known no better than they differ.
func TestLobesAgainstTheMeanOfEngines(t *testing.T) {
	known := filepath.Join(t.TempDir(), "good.toml")
	one := lobesJob(t, inletLobe, map[string]string{"inlet.csv": later(inletLifts, -toothOf21)})
	two := lobesJob(t, inletLobe, map[string]string{"inlet.csv": later(inletLifts, 1-toothOf21)})
	code, text, errs := ev("keep", one, two, known)
	require.Equal(t, answered, code, errs)
	require.Contains(t, flat(text), "inlet lobe: its curve, by 20 readings on its flanks, the mean of 2 engines, which scatter by some")
	out := lobesFound(t, two, "--against", known)
	require.InDelta(t, 0.5, *out.Lobes[0].Shift, 0.05) // a tenth of how sure a flank is
	require.Greater(t, out.Marks[0].Expanded, 1.0)     // two engines say little of a third
	_, text, _ = ev("find", two, "--against", known, "--details")
	require.Contains(t, flat(text), "compared with the mean of 2 healthy engines'")

	short := lobesJob(t, inletLobe, map[string]string{"inlet.csv": lower(inletLifts, 0.1) + "\n"})
	data := struct {
		Lobes []struct {
			Engines int
			Scatter *float64 `json:"scatter_deg"`
		}
	}{}
	code, text, errs = ev("keep", one, two, short, filepath.Join(t.TempDir(), "other.toml"), "--as", "json")
	require.Equal(t, answered, code, errs)
	require.NoError(t, json.Unmarshal([]byte(text), &data))
	require.Equal(t, 3, data.Lobes[0].Engines)
	require.Greater(t, *data.Lobes[0].Scatter, 1.0)
}

// After the repair both lobes are found back where the card has them, by the same card.
func TestRecheckLobes(t *testing.T) {
	before := lobesJob(t, lockingPin+inletLobe+exhaustLobe, nil)
	right := map[string]string{"inlet.csv": later(inletLifts, -toothOf21), "exhaust.csv": later(exhaustLifts, -toothOf21)}
	after := lobesJob(t, lockingPin+inletLobe+exhaustLobe, right)
	code, text, errs := ev("recheck", before, after)
	require.Equal(t, answered, code, errs)
	require.Contains(t, flat(text), "Changed: inlet lobe and exhaust lobe.")
	require.Regexp(t, `inlet lobe +\+16\.9 +-0\.1 +-17\.0`, text)
	require.Contains(t, flat(text), "that slip is gone")

	other := lobesJob(t, lockingPin+strings.Replace(inletLobe, "12 BTDC", "10 BTDC", 1), right)
	code, _, errs = ev("recheck", before, other)
	require.Equal(t, failed, code)
	require.Contains(t, errs, `lobe "inlet lobe": `)
	require.Contains(t, errs, "the same card into both jobs")
}
