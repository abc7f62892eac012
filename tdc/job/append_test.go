package job_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/disk/disktest"
)

// A job that somebody saves between its reading and its writing is left alone, saved in
// place or by another file in its place.
func TestAppendSparesAnEdit(t *testing.T) {
	const before = "title = \"a\"\n[[cylinder]]\nnumber = 1\nstops = [[-30, 30]]\n"
	disktest.Everywhere(t, func(t *testing.T) {
		for name, save := range map[string]func(path string, text []byte) error{
			"in place": func(path string, text []byte) error { return os.WriteFile(path, text, 0o600) },
			"by renaming": func(path string, text []byte) error {
				return errors.Join(os.WriteFile(path+"~", text, 0o600), os.Rename(path+"~", path))
			},
		} {
			folder := disktest.Folder(t, map[string]string{"job.toml": before})
			path := filepath.Join(folder, "job.toml")
			var together disk.Together
			together.Write(filepath.Join(folder, "p.svg"), nil, false)
			require.NoError(t, job.Append(&together, path, []byte("[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = [1]\n")))
			edited := strings.Replace(before, `"a"`, `"edited"`, 1)
			err := together.DoneWith(func() error { return save(path, []byte(edited)) })
			require.EqualError(t, err, path+": was changed by another program in the meantime, so it was left as it is: type the same again", name)
			disktest.RequireText(t, edited, path)
			disktest.OnlyFiles(t, folder, "job.toml")
		}
	})
}
