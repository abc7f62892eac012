package edges

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"

	"evendrop/tdc/job/disk"

	"github.com/stretchr/testify/require"
)

// A file that vanishes while it is read, or is cut short, is an error in words:
// edges reads its capture twice.
func TestVanishingCapture(t *testing.T) {
	path := filepath.Join(t.TempDir(), "c.csv")
	require.NoError(t, os.WriteFile(path, []byte("1,2\n"), 0o600))
	q := Question{Open: func(file string) (io.ReadCloser, error) {
		return disk.OpenPlain(file, errors.New("not found: check the name of the capture"))
	}}
	err := q.reading(path, func(r io.Reader) error {
		_, err := io.Copy(io.Discard, r)
		return err
	})
	require.NoError(t, err)
	require.NoError(t, os.Remove(path))
	err = q.reading(path, func(io.Reader) error { return errors.New("was read") })
	require.EqualError(t, inCapture(path, err), path+": not found: check the name of the capture")
}
