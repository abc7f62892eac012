//go:build unix

package main

import (
	"os"

	"golang.org/x/sys/unix"
)

// stdoutClosed tells whether the process was started without a standard output. The Go
// runtime then opens the null device in its place, for reading and writing, and each
// answer would vanish in there. Who wants no answer gives the null device for writing
// alone, as a shell does, or one for both outputs.
func stdoutClosed() bool {
	const stdin, stdout, stderr = 0, 1, 2
	flags, err := unix.FcntlInt(stdout, unix.F_GETFL, 0)
	if err != nil || flags&unix.O_ACCMODE != unix.O_RDWR {
		return err != nil
	}
	out, err := os.Stdout.Stat()
	if err != nil {
		return true
	}
	null, err := os.Stat(os.DevNull)
	if err != nil || !os.SameFile(out, null) {
		return false
	}
	return !together(stdout, stdin, flags) && !together(stdout, stderr, flags)
}

// together tells whether two descriptors are of one open file: what is set of the one
// shows in the other.
func together(one, other uintptr, flags int) bool {
	if _, err := unix.FcntlInt(one, unix.F_SETFL, flags^unix.O_APPEND); err != nil {
		return false
	}
	defer unix.FcntlInt(one, unix.F_SETFL, flags)
	now, err := unix.FcntlInt(other, unix.F_GETFL, 0)
	if err != nil || now&unix.O_APPEND != (flags^unix.O_APPEND)&unix.O_APPEND {
		return false
	}
	_, _ = unix.FcntlInt(one, unix.F_SETFL, flags)
	then, err := unix.FcntlInt(other, unix.F_GETFL, 0)
	return err == nil && then&unix.O_APPEND == flags&unix.O_APPEND
}
