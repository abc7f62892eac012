package system

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// NoWait has no meaning here.
const NoWait = 0

// LockFile locks the file itself, whatever it was named by, until it is closed or
// the process ends. What is locked is a byte far behind its end, so that editors may
// read and write it. One that another process has locked is ErrHeld.
func LockFile(file *os.File) error {
	const farBehind = 1 << 30
	err := windows.LockFileEx(windows.Handle(file.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0,
		&windows.Overlapped{OffsetHigh: farBehind})
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) {
		return ErrHeld
	}
	return err
}
