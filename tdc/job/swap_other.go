//go:build !linux && !darwin

package job

import "os"

// swap has two files of a folder trade names.
func swap(root *os.Root, _ *os.File, one, other string) error { return swapByLink(root, one, other) }
