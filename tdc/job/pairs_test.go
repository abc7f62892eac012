package job_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
)

// opened is a job of a text, with a stops file of another beside it.
func opened(t *testing.T, text, stops string) (job.Job, error) {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "stops.csv"), []byte(stops), 0o600))
	path := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return job.Open(path)
}

func TestViewsAndStopsFile(t *testing.T) {
	j, err := opened(t, "[[cylinder]]\nnumber = 1\nstops = \"stops.csv\"\nviews = [{ before = 351.9, after = 2.9 }, { before = 351.4, after = 2.4, turn = \"backward\" }]\n",
		"rising;falling\n-31,5;24,0\n-31;24,5\n")
	require.NoError(t, err)
	c := j.Cylinders[0]
	require.Len(t, c.Stops, 2)
	require.InDelta(t, -31.5, c.Stops[0].Rising.Degrees(), 1e-9)
	require.InDelta(t, 24.5, c.Stops[1].Falling.Degrees(), 1e-9)
	require.Equal(t, evidence.Forward, c.Views[0].Turn)
	require.Equal(t, evidence.Backward, c.Views[1].Turn)
	require.InDelta(t, 2.4, c.Views[1].After.Degrees(), 1e-9)
}

// A readings file that waits for its first row is none beside a stop, dwell or views, and
// the fault that it ever was without them, or with rows that are wrong.
func TestBlankReadingsBesideOthers(t *testing.T) {
	const head, blank = "[[cylinder]]\nnumber = 1\nreadings = \"stops.csv\"\n", "# none yet\nangle,depth\n"
	for _, beside := range []string{"stops = [[-31.5, 24]]\n", "dwell = [{ still = -6.2, moves = 9.1 }]\n", "views = [{ before = 351.9, after = 2.9 }]\n"} {
		j, err := opened(t, head+beside, blank)
		require.NoError(t, err, beside)
		require.Empty(t, j.Cylinders[0].Readings)
		require.NotEmpty(t, j.ReadingsFiles[1], "jot writes there")
		_, err = opened(t, head+beside, blank+"340,deep\n")
		require.ErrorContains(t, err, "stops.csv:3:5", beside)
	}
	_, err := opened(t, head, blank)
	require.ErrorContains(t, err, "no readings below the header row")
}

func TestLimitsAndSharedZero(t *testing.T) {
	j, err := opened(t, "[engine]\nthrow_limit = 0.5\ncrown_limit = 0.1\n[gauge]\nsame_zero = true\nzero_at_deck = true\n[[cylinder]]\nnumber = 1\nstops = [[-30, 30]]\n", "")
	require.NoError(t, err)
	require.True(t, j.Setup.Gauge.SameZero)
	require.True(t, j.Setup.Gauge.ZeroAtDeck)
	require.InDelta(t, 0.5, (j.Setup.Engine.ThrowLimit).Degrees(), 1e-12)
	require.InDelta(t, 0.1, float64(j.Setup.Engine.CrownLimit), 1e-12)
}

// Every fault of pairs names its place and what to type.
func TestBadPairs(t *testing.T) {
	const head = "[[cylinder]]\nnumber = 1\n"
	for _, c := range []struct{ text, stops, says string }{
		{head + "views = [1]\n", "", `job.toml:3:10: `},
		{head + "views = [{ before = 3 }]\n", "", "after"},
		{head + "views = [{ after = 3 }]\n", "", "before"},
		{head + "views = [{ before = 1, after = 3, turn = \"up\" }]\n", "", "backward"},
		{head + "stops = \"none.csv\"\n", "", "not found"},
		{head + "stops = \"stops.csv\"\n", "", "stops.csv:1:1: expected a header row rising,falling"},
		{head + "stops = \"stops.csv\"\n", "angle,depth\n1,2\n", "expected a header row rising,falling"},
		{head + "stops = \"stops.csv\"\n", "rising,falling\n", "a pair of contact angles a row"},
		{head + "stops = \"stops.csv\"\n", "rising,falling\n1,x\n", `stops.csv:2:3: falling "x"`},
		{head + "stops = \"stops.csv\"\n", "rising,falling\n1,2,3\n", "3 fields under a header of 2"},
		{head + "stops = \"stops.csv\"\n", "rising,falling\n1,900\n", "stops.csv:2:3"},
	} {
		_, err := opened(t, c.text, c.stops)
		require.ErrorContains(t, err, c.says, c.text+c.stops)
	}
}
