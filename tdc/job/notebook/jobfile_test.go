package notebook_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/sheet"
)

const little = "[engine]\nstroke = 81.4 # measured\n[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"\n"

func littleJob(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "job.toml")
	require.NoError(t, os.WriteFile(path, []byte(little), 0o600))
	return path
}

// The job is what the file says once it is amended, and what would make none of it is
// refused.
func TestAmend(t *testing.T) {
	path := littleJob(t)
	j, err := (&notebook.Files{File: path}).Amend(amend.Seen(1, "stops", "[-31.5, 24]"))
	require.NoError(t, err)
	require.Len(t, j.Cylinders[0].Stops, 1)
	whole := little + "stops = [[-31.5, 24]]\n"
	for _, c := range []struct {
		edit amend.Edit
		says string
	}{
		{amend.Seen(1, "dwell", "{ still = 3 }"), "moves is missing"},
		{amend.With([]byte("[[mark]]\nname = \"a\"\non = \"gearbox\"\nread = 3\n")), `the drive has no member "gearbox"`},
		{amend.Unseen(1, "stops", "[1, 2]"), "is no longer in the job file"},
	} {
		_, err = (&notebook.Files{File: path}).Amend(c.edit)
		require.ErrorContains(t, err, c.says)
		require.ErrorContains(t, err, path)
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, whole, string(data))
	}
}

// What is no job, or no UTF-8, is not amended.
func TestAmendsNoRuin(t *testing.T) {
	path := littleJob(t)
	for _, text := range []string{"\x920", "stroke = ", "[engine]\nstroke = 81.4\n"} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		_, err := (&notebook.Files{File: path}).Amend(amend.Seen(1, "stops", "[-31.5, 24]"))
		require.ErrorContains(t, err, path)
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, text, string(data))
	}
	require.NoError(t, os.Remove(path))
	_, err := (&notebook.Files{File: path}).Amend(amend.Seen(1, "stops", "[-31.5, 24]"))
	require.ErrorContains(t, err, path)
}

// A lobe's lifts are kept like readings.
func TestLifts(t *testing.T) {
	path := filepath.Join(t.TempDir(), "inlet-1.csv")
	n, says, err := notebook.Open(path, sheet.Lifts, bench(), "mm")
	require.NoError(t, err)
	require.Empty(t, says)
	defer n.Close()
	lifts, err := n.Add(sheet.Entry{Angle: "62.5", Depth: "1.04", Turn: 1})
	require.NoError(t, err)
	require.InDelta(t, 1.04, lifts[0].Depth.Millimetres(), 1e-12)
	lifts, err = n.Add(sheet.Entry{Angle: "65", Depth: "0.041 in", Turn: -1})
	require.NoError(t, err)
	require.InDelta(t, 1.0414, lifts[1].Depth.Millimetres(), 1e-12)
	_, err = n.Add(sheet.Entry{Angle: "65", Depth: "60", Turn: 1})
	require.ErrorContains(t, err, "50 mm at the most")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "angle,lift,note,turn\n62.5,1.04,,\n65,0.041 in,,backward\n", string(data))
}
