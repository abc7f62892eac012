package system

import (
	"os"

	"golang.org/x/sys/unix"
)

// swap has two files of a folder trade names, in one step that nothing comes between.
func swap(root *os.Root, dir *os.File, one, other string) error {
	if unix.RenameatxNp(int(dir.Fd()), one, int(dir.Fd()), other, unix.RENAME_SWAP) == nil {
		return nil
	}
	return SwapByLink(root, one, other)
}
