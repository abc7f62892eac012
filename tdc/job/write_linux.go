package job

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// deliver writes a file that has no name until it is whole, so that nothing of it
// stays behind when the process is killed on the way. Only where it takes another's
// place has it a name of its own, for as long as it takes to rename it.
func deliver(path string, data []byte, mode fs.FileMode, replace bool) error {
	file, err := os.OpenFile(filepath.Dir(path), os.O_WRONLY|unix.O_TMPFILE, 0o666)
	if err != nil {
		return deliverNamed(path, data, mode, replace) // this file system has none, or says why
	}
	defer file.Close()
	if err := fill(file, data, mode); err != nil {
		return err
	}
	named := path
	if replace {
		named = beside(path)
	}
	err = unix.Linkat(unix.AT_FDCWD, fmt.Sprintf("/proc/self/fd/%d", file.Fd()), unix.AT_FDCWD, named, unix.AT_SYMLINK_FOLLOW)
	switch {
	case errors.Is(err, fs.ErrExist):
		return err
	case err != nil:
		return deliverNamed(path, data, mode, replace) // no /proc, or no links
	case !replace:
		return nil
	}
	defer os.Remove(named) // of no avail once it is published
	return os.Rename(named, path)
}
