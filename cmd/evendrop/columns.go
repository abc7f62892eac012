package main

import (
	"os"
	"strconv"
)

// columns is how many columns the terminal has: as the environment says (POSIX.1-2017,
// XBD 8.3, COLUMNS), or else as the terminal itself does; 0 where neither is known.
func columns(terminal *os.File) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return n
	}
	return columnsOf(terminal)
}
