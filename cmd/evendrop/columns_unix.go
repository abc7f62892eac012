//go:build !windows

package main

import (
	"os"

	"golang.org/x/sys/unix"
)

// columnsOf asks a terminal how wide it is; 0 of what is none.
func columnsOf(terminal *os.File) int {
	size, err := unix.IoctlGetWinsize(int(terminal.Fd()), unix.TIOCGWINSZ)
	if err != nil {
		return 0
	}
	return int(size.Col)
}
