//go:build !windows

package main

import (
	"errors"
	"os"
	"syscall"
)

// hold opens a lock file and locks it; the lock goes when the process does, however
// it ends.
func hold(path string) (*os.File, error) {
	for {
		file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
		if err != nil {
			return nil, err
		}
		err = syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		switch {
		case errors.Is(err, syscall.EWOULDBLOCK):
			file.Close()
			return nil, errHeld
		case err != nil && !errors.Is(err, errors.ErrUnsupported): // some network folders have no locks
			file.Close()
			return nil, err
		}
		// the one that held it may have removed the file in the meantime
		mine, err := file.Stat()
		if there, gone := os.Stat(path); err == nil && gone == nil && os.SameFile(mine, there) {
			return file, nil
		}
		file.Close()
	}
}
