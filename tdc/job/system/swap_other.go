//go:build !linux && !darwin

package system

import "os"

// swap has two files of a folder trade names.
func swap(root *os.Root, _ *os.File, one, other string) error { return SwapByLink(root, one, other) }
