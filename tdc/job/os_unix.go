//go:build unix

package job

import (
	"errors"
	"os"
	"syscall"
)

// noWait opens a pipe without waiting for its other end, so that it can be refused.
const noWait = syscall.O_NONBLOCK

// lockFile locks the file itself, whatever it was named by, until it is closed or
// the process ends, however it ends. One that another process has locked is errHeld.
func lockFile(file *os.File) error {
	err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	switch {
	case errors.Is(err, syscall.EWOULDBLOCK):
		return errHeld
	case errors.Is(err, errors.ErrUnsupported): // some network folders have no locks
		return nil
	}
	return err
}
