package main

import (
	"errors"
	"os"
	"syscall"
)

// sharingViolation is what Windows says of a file that another process writes.
const sharingViolation = syscall.Errno(32)

// hold opens a lock file that no other process may open for writing until this one
// closes it or ends.
func hold(path string) (*os.File, error) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, err
	}
	handle, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, syscall.FILE_SHARE_READ,
		nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	switch {
	case errors.Is(err, sharingViolation):
		return nil, errHeld
	case err != nil:
		return nil, &os.PathError{Op: "open", Path: path, Err: err}
	}
	return os.NewFile(uintptr(handle), path), nil
}
