package jobtest_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
	"evendrop/tdc/job/jobtest"
	"evendrop/tdc/job/knowngood"
)

// Every invented job opens, its readings as many as were typed; every kind of evidence,
// instrument and mark is met again and again. The seeds are 0 to 299.
func TestInventedJobs(t *testing.T) {
	seen := map[string]int{}
	for seed := range 300 {
		invented := jobtest.Jobs().Example(seed)
		dir := t.TempDir()
		require.NoError(t, invented.Write(dir))
		opened, err := job.Open(filepath.Join(dir, jobtest.JobFile))
		require.NoError(t, err, "seed %d\n%s", seed, invented)
		require.Len(t, opened.Cylinders, len(invented.Cylinders))
		for i, c := range invented.Cylinders {
			require.Equal(t, c.Number, opened.Cylinders[i].Number)
			require.Len(t, opened.Cylinders[i].Readings, len(c.Typed))
			require.Len(t, opened.Cylinders[i].Stops, len(c.Pairs)/2)
		}
		require.Len(t, opened.Marks, invented.Marks+invented.Again)
		require.Len(t, opened.Lobes, len(invented.Lobes))
		for i, l := range invented.Lobes {
			require.Equal(t, l.Name, opened.Lobes[i].Name)
			require.Len(t, opened.Lobes[i].Readings, l.Rows)
		}
		if invented.Healthy {
			_, err := knowngood.Open(filepath.Join(dir, jobtest.HealthyFile))
			require.NoError(t, err, "seed %d\n%s", seed, invented)
		}
		for _, kind := range invented.Kinds {
			seen[kind]++
		}
	}
	for _, kind := range []string{
		"readings", "stops", "dwell", "views", "mixed", "readings mixed", "stops in a file", "unit mm", "unit in", "wraps 360", "wraps 180", "wraps 90",
		"with", "against", "dial", "rod", "borescope", "up", "down", "one way", "both ways", "out of order", "blunder", "cylinders", "offset", "known_to",
		"engine unknown", "marks", "mark read", "mark off", "off in crank degrees", "off in cam degrees", "off in teeth", "off in mm arc", "off in mm chord",
		"mark against", "mark again", "sets", "unknown", "zero throw", "known-good", "one cam", "two cams", "cam in block", "own joints", "drive unsaid",
		"lobe", "lobe symmetric", "lobe leaning", "lobe ramped", "card of events", "card of a centre", "no card", "lobe again", "lobe with one flank",
	} {
		require.GreaterOrEqual(t, seen[kind], 3, kind) // met again and again, or the jobs say nothing about it
	}
}
