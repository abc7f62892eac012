// Package system is what only some systems can do with files, and what the others do in
// its place: files without a name, files that trade names in one step, locks and leases.
package system

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
)

// SwapByLink has two files trade names where the system cannot do it in one step: the
// second name is never without a file. Where there are no links the second file goes.
func SwapByLink(root *os.Root, one, other string) error {
	kept := TemporaryName()
	if root.Link(other, kept) != nil {
		return root.Rename(one, other)
	}
	err := root.Rename(one, other)
	if err == nil {
		return root.Rename(kept, one)
	}
	return errors.Join(err, root.Remove(kept))
}

// TemporaryName is a name that no other file has.
func TemporaryName() string { return fmt.Sprintf(".%016x.tmp", rand.Uint64()) }

// Able is what some systems can do with files and others cannot.
var Able = struct {
	Unnamed func(dir *os.File) (*os.File, error)
	Swap    func(root *os.Root, dir *os.File, one, other string) error
	Lease   func(*os.File) bool
}{unnamed, swap, lease}

// ErrHeld is a lock that another process holds.
var ErrHeld = errors.New("held")
