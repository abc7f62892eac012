package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
)

// Set 1 is the same written or left out; another set is another job.
func TestSameInSets(t *testing.T) {
	const text = "[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = 1\nset = 1\n"
	of := func(text, readings string) job.Job {
		j, err := job.Parse("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(readings), nil })
		require.NoError(t, err)
		return j
	}
	first := of(text, "angle,depth\n340,4\n350,1\n")
	require.True(t, job.Same(first, of(strings.Replace(text, "set = 1\n", "", 1), "angle,depth,set\n340,4,1\n350,1,\n")))
	other := of(text, "angle,depth,set\n340,4,\n350,1,2\n")
	require.False(t, job.Same(first, other))
	require.False(t, job.SameReadings(first, other))
	require.False(t, job.Same(first, of(strings.Replace(text, "set = 1", "set = 2", 1), "angle,depth\n340,4\n350,1\n")))
	require.Equal(t, 1, first.Marks[0].Set, "what is compared is left as it was")
}
