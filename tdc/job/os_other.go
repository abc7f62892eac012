//go:build !linux

package job

import (
	"errors"
	"io/fs"
	"os"
)

// unnamed makes no file: here each has a name.
func unnamed(*os.File) (*os.File, error) { return nil, errors.ErrUnsupported }

// giveName is never asked for.
func giveName(_, _ *os.File, _ string) error { return errors.ErrUnsupported }

// lease keeps nobody from a file: here nothing can.
func lease(*os.File) bool { return false }

func letGo(*os.File) {}

func awaited(*os.File) bool { return false }

// holder cannot be told.
func holder(fs.FileInfo) int { return 0 }
