package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"evendrop/tdc/job/source"
	"evendrop/tdc/job/system"
)

// MayWrite is why Together would refuse the name, before there is anything to write; nil
// when it would not.
func MayWrite(path string, replace bool) error {
	if _, _, err := destination(path, replace); err != nil {
		return source.Of(path, writeProblem(err))
	}
	return nil
}

var (
	errNotPlain = errors.New("is not a plain file, so it was left as it is: choose another name")
	errGuarded  = errors.New("may not be written, so it was left as it is: choose another name, or make it writable first")
)

// destination is where path leads, and the file there; nil of none.
func destination(path string, replace bool) (string, fs.FileInfo, error) {
	if _, err := os.Lstat(path); err != nil {
		return path, nil, nil // what is amiss shows when it is written
	}
	if !replace {
		return path, nil, fs.ErrExist
	}
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	info, err := os.Lstat(path)
	switch {
	case err != nil:
		return path, nil, err
	case info.Mode()&fs.ModeSymlink != 0: // to nowhere
		return path, info, nil
	case info.IsDir():
		return path, nil, errIsFolder
	case !info.Mode().IsRegular():
		return path, nil, errNotPlain
	}
	return path, info, writable(path, info)
}

// writable refuses a file that may not be written, though another could take its
// place.
func writable(path string, info fs.FileInfo) error {
	if info.Mode().Perm()&0o222 == 0 {
		return errGuarded
	}
	file, err := os.OpenFile(path, os.O_WRONLY|system.NoWait, 0)
	if errors.Is(err, fs.ErrPermission) {
		return errGuarded
	}
	if err == nil {
		file.Close()
	}
	return nil
}

// writeProblem says why a file cannot be written.
func writeProblem(err error) error {
	switch {
	case errors.Is(err, errIsFolder), errors.Is(err, errNotPlain), errors.Is(err, errGuarded), errors.Is(err, ErrChanged):
		return err
	case errors.Is(err, fs.ErrExist):
		return source.Curable{Problem: "already exists: choose another name", Cure: source.Overwrite}
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("its folder does not exist: make it first, or choose another")
	case errors.Is(err, fs.ErrPermission):
		return errors.New("may not be written: choose another folder")
	}
	return fmt.Errorf("cannot be written: %w", Cause(err))
}
