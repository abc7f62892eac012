//go:build unix

package disktest

import "syscall"

// MakePipe makes a named pipe. An error is the system's.
func MakePipe(path string) error { return syscall.Mkfifo(path, 0o666) }
