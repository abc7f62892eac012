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
		err = deliver(target, data, mode, replace)
	}
	if err != nil {
		return &Error{File: path, Problem: writeProblem(err)}
	}
	return nil
}

// MayWrite is why Write would refuse the name, before there is anything to write; nil
// when it would not.
func MayWrite(path string, replace bool) error {
	if _, _, err := destination(path, replace); err != nil {
		return &Error{File: path, Problem: writeProblem(err)}
	}
	return nil
}

var (
	errFolder   = errors.New("is a folder: name a file in it")
	errNotPlain = errors.New("is no plain file, so it is left as it is: choose another name")
)

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
	case !info.Mode().IsRegular():
		return path, 0, errNotPlain
	}
	return path, info.Mode().Perm(), nil
}

// beside is a name for a file that is not whole yet, in the folder of another.
func beside(path string) string {
	return filepath.Join(filepath.Dir(path), "."+rand.Text()[:16]+".tmp")
}

// deliverNamed writes a file under a name of its own and then gives it the one it
// is to have. Killed on the way, the file stays under the first.
func deliverNamed(path string, data []byte, mode fs.FileMode, replace bool) error {
	temporary := beside(path)
	file, err := os.OpenFile(temporary, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	defer os.Remove(temporary) // of no avail once it is published
	if err := errors.Join(fill(file, data, mode), file.Close()); err != nil {
		return err
	}
	return publish(temporary, path, replace)
}

// fill writes a new file down to the disk. With mode 0 it keeps the mode that new
// files get.
func fill(file *os.File, data []byte, mode fs.FileMode) error {
	_, err := file.Write(data)
	if err == nil && mode != 0 {
		err = file.Chmod(mode)
	}
	if err == nil {
		err = file.Sync()
	}
	return err
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
	case errors.Is(err, errFolder), errors.Is(err, errNotPlain):
		return err.Error()
	case errors.Is(err, fs.ErrExist):
		return "is there already: choose another name, or type --replace to overwrite it"
	case errors.Is(err, fs.ErrNotExist):
		return "its folder is not there: make it first, or choose another"
	case errors.Is(err, fs.ErrPermission):
		return "may not be written: choose another folder"
	}
	return "cannot be written: " + cause(err).Error()
}
