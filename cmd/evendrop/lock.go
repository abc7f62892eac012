package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// errHeld is a lock that another process holds.
var errHeld = errors.New("held")

// lock keeps other processes from writing a readings file until it is released. The
// lock file beside it says which process holds it; one that a killed process left
// behind holds nobody up.
func lock(path string) (release func(), err error) {
	beside := filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock")
	file, err := hold(beside)
	switch {
	case errors.Is(err, errHeld):
		return nil, fmt.Errorf("%s: another jot%s is writing it: end that one first", path, process(beside))
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("%s: its folder may not be written, so no reading could be kept: check who may write it", path)
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s: its folder is not there: make it first", path)
	case err != nil:
		return nil, fmt.Errorf("%s: cannot be locked, so no reading could be kept: %w", path, err)
	}
	if err := file.Truncate(0); err == nil { // the number only helps the one that is refused
		fmt.Fprintln(file, os.Getpid())
	}
	return func() {
		os.Remove(beside)
		file.Close()
	}, nil
}

// process names the process that holds a lock, when its file says which.
func process(beside string) string {
	data, err := os.ReadFile(beside)
	if err != nil {
		return ""
	}
	if pid, err := strconv.Atoi(strings.TrimSpace(string(data))); err == nil {
		return fmt.Sprintf(" (process %d)", pid)
	}
	return ""
}
