package job

import (
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// Write writes a file that appears whole or not at all, whatever happens on the
// way. One that is there already stays as it is unless replace is set; then it
// keeps its mode, and a link to it stays a link. An error is an *Error.
func Write(path string, data []byte, replace bool) error {
	target, mode, err := destination(path, replace)
	if err == nil {
		temporary := filepath.Join(filepath.Dir(target), "."+rand.Text()[:16]+".tmp")
		err = writeNew(temporary, data, mode)
		if err == nil {
			err = publish(temporary, target, replace)
		}
		os.Remove(temporary) // of no avail once it is published
	}
	if err != nil {
		return &Error{File: path, Problem: writeProblem(err)}
	}
	return nil
}

var errFolder = errors.New("is a folder: name a file in it")

// destination is where path leads, and the mode of the file there; 0 of none.
func destination(path string, replace bool) (string, fs.FileMode, error) {
	if _, err := os.Lstat(path); err != nil {
		return path, 0, nil // what is amiss shows when it is written
	}
	if !replace {
		return path, 0, fs.ErrExist
	}
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return path, 0, nil // a link to nowhere
	case info.IsDir():
		return path, 0, errFolder
	}
	return path, info.Mode().Perm(), nil
}

// writeNew writes a file that must not be there, down to the disk. With mode 0
// it gets the mode that new files get.
func writeNew(path string, data []byte, mode fs.FileMode) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = file.Write(data)
	if err == nil && mode != 0 {
		err = file.Chmod(mode)
	}
	if err == nil {
		err = file.Sync()
	}
	return errors.Join(err, file.Close())
}

// publish gives a file that is whole its name. Where another must stay, a link
// does it: it fails when the name was taken in the meantime. Some file systems
// have no links; there the name was free a moment ago.
func publish(temporary, path string, replace bool) error {
	if !replace {
		err := os.Link(temporary, path)
		if err == nil || errors.Is(err, fs.ErrExist) {
			return err
		}
	}
	return os.Rename(temporary, path)
}

// writeProblem says why a file cannot be written.
func writeProblem(err error) string {
	switch {
	case errors.Is(err, errFolder):
		return errFolder.Error()
	case errors.Is(err, fs.ErrExist):
		return "is there already: choose another name, or type --replace to overwrite it"
	case errors.Is(err, fs.ErrNotExist):
		return "its folder is not there: make it first, or choose another"
	case errors.Is(err, fs.ErrPermission):
		return "may not be written: choose another folder"
	}
	return "cannot be written: " + cause(err).Error()
}
