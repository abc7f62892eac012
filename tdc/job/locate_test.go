package job_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
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

// A mark of a set in which no piston was read is told with the place of its set.
func TestLocateSet(t *testing.T) {
	const pin = "[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = 1\n"
	const says = ": mark \"pin\": it is of set %d, and cylinder 1 has no readings of that set. Write the set that it was read in, or read the piston in set %d as well"
	for _, c := range []struct {
		text, where string
		read, is    int
	}{
		{pin, "bench/job.toml:1", 2, 1},
		{pin + "set = 2\n", "bench/job.toml:5:7", 1, 2},
		{pin + pin + "set = 3\n", "bench/job.toml:9:7", 1, 3},
	} {
		j := parsed(t, c.text+aCylinder)
		_, err := mark.Judge(j.Setup, foundIn(t, c.read), j.Drive, j.Marks)
		require.EqualError(t, j.Locate(err), c.where+fmt.Sprintf(says, c.is, c.is), c.text)
	}
}

// foundIn is TDC by readings of one set.
func foundIn(t *testing.T, set int) tdc.Result {
	t.Helper()
	s := marktest.Bench()
	read := marktest.Readings(s, 3, 0, marktest.Quiet)
	for i := range read {
		read[i].Set = set
	}
	return marktest.Found(t, s, read)
}

// A mark read in several sets is said once what it should be.
func TestMarkInSets(t *testing.T) {
	j := parsed(t, "[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = 1\nshould_be = 4\nlimit = 1\nsource = \"card\"\n"+
		"[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = [71, 72]\nset = 2\n"+aCylinder)
	require.Len(t, j.Marks, 2)
	first, second := j.Marks[0], j.Marks[1]
	require.Equal(t, 2, second.Set)
	require.Len(t, second.Read, 2)
	first.Read, first.Set = second.Read, second.Set
	require.Equal(t, first, second)
}
