package job_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
)

// A job may be opened before there are readings.
func TestOpenBlank(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(path, []byte("[[cylinder]]\nnumber = 3\nreadings = \"r.csv\"\n"), 0o600))
	for _, text := range []string{"", "\n", "# c\n", "angle,depth\n", "angle;depth\r\n# c\r\n"} {
		if text != "" {
			require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(text), 0o600))
		}
		j, err := job.OpenBlank(path)
		require.NoError(t, err, text)
		require.Empty(t, j.Cylinders[0].Readings)
		require.Equal(t, filepath.Join(dir, "r.csv"), j.ReadingsFiles[3])
		_, err = job.Open(path)
		require.Error(t, err)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte("angle,depth\n340,x\n"), 0o600))
	_, err := job.OpenBlank(path)
	require.ErrorContains(t, err, "r.csv:2:5")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), make([]byte, 100), 0o600)) // what a power cut may leave
	_, err = job.OpenBlank(path)
	require.ErrorContains(t, err, "r.csv:1:1: a control character, code 0")
	require.NoError(t, os.WriteFile(path, []byte("[[cylinder]]\nnumber = 3\nreadings = \"../r.csv\"\n"), 0o600))
	_, err = job.OpenBlank(path)
	require.ErrorContains(t, err, "leaves the job's folder")
}
