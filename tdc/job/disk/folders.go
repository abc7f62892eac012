package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// MakeFolder makes a folder and those that it lies in, where they do not exist. They go
// again where the files are not written. An error is of a folder that may not, or cannot,
// be made; none of them stays then.
func (t *Together) MakeFolder(dir string) error {
	missing := missingFolders(dir)
	err := os.MkdirAll(dir, 0o777)
	t.made = append(missing, t.made...)
	if err == nil {
		return nil
	}
	t.unmake()
	if errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("%s: may not be made: choose another folder", dir)
	}
	return fmt.Errorf("%s: cannot be made: %w", dir, Cause(err))
}

// missingFolders are a folder and those that it lies in, as far as they do not exist, the
// innermost first.
func missingFolders(dir string) (list []string) {
	for dir = filepath.Clean(dir); ; dir = filepath.Dir(dir) {
		if _, err := os.Lstat(dir); !errors.Is(err, fs.ErrNotExist) || dir == filepath.Dir(dir) {
			return list
		}
		list = append(list, dir)
	}
}

// unmake takes away the folders that were made, the innermost first. One that another
// program put something into stays.
func (t *Together) unmake() {
	for _, dir := range t.made {
		_ = os.Remove(dir)
	}
	t.made = nil
}
