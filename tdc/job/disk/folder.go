package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// MakeFolder makes a folder and those that it lies in, where they do not exist.
func MakeFolder(dir string) error {
	err := os.MkdirAll(dir, 0o777)
	if err == nil {
		return nil
	}
	if errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("%s: may not be made: choose another folder", dir)
	}
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		err = path.Err
	}
	return fmt.Errorf("%s: cannot be made: %w", dir, err)
}
