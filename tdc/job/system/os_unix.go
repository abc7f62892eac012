//go:build unix

package system

import (
	"errors"
	"os"
	"syscall"
)

// NoWait opens a pipe without waiting for its other end, so that it can be refused.
const NoWait = syscall.O_NONBLOCK

// LockFile locks the file itself, whatever it was named by, until it is closed or
// the process ends, however it ends. One that another process has locked is ErrHeld.
func LockFile(file *os.File) error {
	err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	switch {
	case errors.Is(err, syscall.EWOULDBLOCK):
		return ErrHeld
	case errors.Is(err, errors.ErrUnsupported): // some network folders have no locks
		return nil
	}
	return err
}
