package job_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// What is wrong with a mark or a joint is told with the line of its table; what is
// wrong with neither, with the file alone.
func TestLocate(t *testing.T) {
	const pin, cam = "[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = 1\n", "[[mark]]\nname = \"lock\"\non = \"rocker\"\nread = 1\n"
	const belt = "[[joint]]\ncarried = \"flywheel\"\ncarrier = \"crank\"\n[[joint]]\ncarried = \"a\"\ncarrier = \"b\"\n"
	for _, c := range []struct{ text, says string }{
		{pin + cam, `bench/job.toml:5: mark "lock": the drive has no member "rocker"`},
		{"[drive]\nlayout = \"one cam\"\n" + pin + cam, `bench/job.toml:7: mark "lock": the drive has no member "rocker"`},
		{belt + pin, `bench/job.toml:4: joint "a on b": nothing joins it to the crank`},
	} {
		j := parsed(t, c.text+aCylinder)
		_, err := mark.Judge(j.Setup, tdc.Result{}, j.Drive, j.Marks)
		require.Error(t, err, c.text)
		require.ErrorContains(t, j.Locate(err), c.says)
	}
	j := parsed(t, pin+aCylinder)
	require.EqualError(t, j.Locate(errors.New("odd")), "bench/job.toml: odd")
	require.EqualError(t, job.Job{File: "x"}.Locate(&mark.Error{Index: 3, Problem: "odd"}), "x: odd")
}
