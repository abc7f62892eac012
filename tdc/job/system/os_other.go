//go:build !linux

package system

import (
	"errors"
	"io/fs"
	"os"
)

// unnamed makes no file: here each has a name.
func unnamed(*os.File) (*os.File, error) { return nil, errors.ErrUnsupported }

// GiveName is never asked for.
func GiveName(_, _ *os.File, _ string) error { return errors.ErrUnsupported }

// lease keeps nobody from a file: here nothing can.
func lease(*os.File) bool { return false }

// LetGo ends no lease: there is none.
func LetGo(*os.File) {}

// Awaited is never: there is no lease.
func Awaited(*os.File) bool { return false }

// Holder cannot be told.
func Holder(fs.FileInfo) int { return 0 }
