//go:build unix

package disktest

import "syscall"

// MakePipe makes a named pipe.
func MakePipe(path string) error { return syscall.Mkfifo(path, 0o666) }
