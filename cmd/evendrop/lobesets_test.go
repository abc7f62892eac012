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
)

// lobeAgain is the inlet lobe read once more, in set 2.
const lobeAgain = "[[lobe]]\nname = \"inlet lobe\"\non = \"inlet cam\"\nvalve = \"inlet\"\nlift = 1.0\nset = 2\nreadings = \"inlet-2.csv\"\n"

// lobeSetsJob is the job of two sets, the invented lobe of lobes.md 5 read in both.
func lobeSetsJob(t *testing.T, more string) string {
	t.Helper()
	job, _ := setsJob(t, inletLobe+lobeAgain+more)
	for name, by := range map[string]float64{"inlet.csv": 4 - 2.4, "inlet-2.csv": 94 - 2.4} {
		text := "angle,lift\n" + strings.ReplaceAll(onFull(later(inletLifts, by)), " ", "\n") + "\n"
		require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(job), name), []byte(text), 0o600))
	}
	return job
}

// onFull is rows with their angles on a protractor that ends at 360.
func onFull(rows string) string {
	var out []string
	for _, row := range strings.Fields(rows) {
		var angle, lift float64
		_, _ = fmt.Sscanf(row, "%g,%g", &angle, &lift)
		out = append(out, fmt.Sprintf("%.1f,%.2f", math.Mod(angle, 360), lift))
	}
	return strings.Join(out, " ")
}

// A lobe read in two sets is one mark, known better than by either, and its events are told
// by each set; a healthy engine's is kept once; what is wrong with a set stands in its line.
func TestLobeInSets(t *testing.T) {
	job := lobeSetsJob(t, "")
	out := lobesFound(t, job)
	require.Len(t, out.Lobes, 2)
	require.InDelta(t, *out.Lobes[0].Opens, *out.Lobes[1].Opens, 0.3)
	require.Len(t, out.Marks, 2) // and the pin
	require.Equal(t, "inlet lobe", out.Marks[1].Name)
	require.InDelta(t, toothOf21, *out.Marks[1].Off, 0.5)
	require.Equal(t, "outside", *out.Lobes[1].Verdict)

	alone := filepath.Join(filepath.Dir(job), "alone.toml")
	data, err := os.ReadFile(job)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(alone, []byte(strings.Replace(string(data), lobeAgain, "", 1)), 0o600))
	require.Less(t, out.Marks[1].Expanded, 0.9*lobesFound(t, alone).Marks[1].Expanded)

	_, text, _ := ev("find", job, "--details")
	require.Contains(t, flat(text), "inlet lobe, set 1")
	require.Contains(t, flat(text), "inlet lobe, set 2")
	good := filepath.Join(filepath.Dir(job), "good.toml")
	code, kept, errs := ev("keep", job, good)
	require.Equal(t, answered, code, errs)
	require.Equal(t, 1, strings.Count(kept, "its curve"))
	code, text, errs = ev("find", job, "--against", good, "--as", "json")
	require.Equal(t, answered, code, errs)
	require.NoError(t, json.Unmarshal([]byte(text), &out))
	require.InDelta(t, 0, *out.Marks[1].Off, 0.3)
	code, _, errs = ev("recheck", alone, job)
	require.Equal(t, answered, code, errs)

	for more, says := range map[string]string{
		strings.Replace(lobeAgain, "set = 2", "set = 3", 1): `job.toml:38: lobe "inlet lobe": it is of set 3, and cylinder 1 has no readings of that set`,
		lobeAgain: `job.toml:39:8: name = "inlet lobe": another lobe has this name: expected a name of its own, or set = 3 where it was read again with the protractor moved`,
	} {
		code, text, errs = ev("find", lobeSetsJob(t, more))
		require.Equal(t, failed, code)
		require.Empty(t, text)
		require.Contains(t, errs, says)
	}
}

// Exhaust and inlet are paired in the set that both were read in.
func TestLobesPairedInASet(t *testing.T) {
	job := lobeSetsJob(t, strings.NewReplacer("inlet", "exhaust", "set = 2", "set = 2\nopens = \"50 BBDC\"\ncloses = \"10 ATDC\"").Replace(lobeAgain))
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(job), "exhaust-2.csv"), []byte("angle,lift\n"+strings.ReplaceAll(onFull(later(exhaustLifts, 94-2.4)), " ", "\n")+"\n"), 0o600))
	out := lobesFound(t, job)
	require.Len(t, out.Lobes, 3)
	require.Len(t, out.Pairs, 1)
	require.InDelta(t, (124.8+92.97)/2, out.Pairs[0].Separation, 0.3)
}

// A lobe that may have been read before the protractor moved is no mark, is said to be read
// again where its events stand, and is not kept; of an engine with nothing else nothing is.
func TestLobeReadBeforeTheMove(t *testing.T) {
	job := lobesJob(t, inletLobe, nil)
	var rows []string
	for i, line := range append(atTop(t, 2.4), backward(atTop(t, 5.4))...) { // moved by 3 deg at the turn-back
		turn := "f"
		if i >= 10 {
			turn = "b"
		}
		rows = append(rows, strings.Replace(line, " ", ",", 1)+","+turn)
	}
	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(job), "r.csv"), []byte("angle,depth,turn\n"+strings.Join(rows, "\n")+"\n"), 0o600))
	out := lobesFound(t, job)
	require.Empty(t, out.Marks)
	require.Len(t, out.Lobes, 1)
	require.NotNil(t, out.Lobes[0].Opens)
	require.Contains(t, out.Lobes[0].Findings, struct{ Kind string }{"mark read before the move"})
	code, text, _ := ev("find", job, "--strict")
	require.Equal(t, notFine, code)
	require.Equal(t, 1, strings.Count(flat(text), "inlet lobe: It is not judged: the protractor moved"))
	code, _, errs := ev("keep", job, filepath.Join(filepath.Dir(job), "good.toml"))
	require.Equal(t, failed, code)
	require.Contains(t, errs, "nothing of it can be kept: the protractor moved while it was read, and its marks have to be read again")

	code, _, errs = ev("keep", lobesJob(t, strings.Replace(inletLobe, "lift = 1.0", "lift = 0.2", 1), nil), filepath.Join(t.TempDir(), "good.toml"))
	require.Equal(t, failed, code)
	require.Contains(t, errs, `nothing of it can be kept: lobe "inlet lobe": The checking lift of 0.20 mm was not read across`)
}

// backward is lines in the other order.
func backward(lines []string) []string {
	out := make([]string, 0, len(lines))
	for i := range lines {
		out = append(out, lines[len(lines)-1-i])
	}
	return out
}
