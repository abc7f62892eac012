//go:build !unix && !windows

package system

import "os"

// NoWait has no meaning here.
const NoWait = 0

// LockFile locks nothing: there are no other processes.
func LockFile(*os.File) error { return nil }
