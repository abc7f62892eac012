package disktest

import (
	"errors"
	"os"
	"testing"

	"evendrop/tdc/job/system"
)

// OnAPlainSystem runs a test as on a system that can neither keep a file without a
// name, nor have two files trade names in one step, nor keep programs from a file.
func OnAPlainSystem(test func()) {
	saved := system.Able
	defer func() { system.Able = saved }()
	system.Able.Unnamed = func(*os.File) (*os.File, error) { return nil, errors.ErrUnsupported }
	system.Able.Swap = func(root *os.Root, _ *os.File, one, other string) error { return system.SwapByLink(root, one, other) }
	system.Able.Lease = func(*os.File) bool { return false }
	test()
}

// WhenTrading runs a test that is told of each moment in which two files trade names.
func WhenTrading(told, test func()) {
	saved := system.Able
	defer func() { system.Able = saved }()
	system.Able.Swap = func(root *os.Root, dir *os.File, one, other string) error {
		told()
		return saved.Swap(root, dir, one, other)
	}
	test()
}

// Everywhere runs a test with what this system can do, and without.
func Everywhere(t *testing.T, test func(t *testing.T)) {
	t.Run("this system", test)
	t.Run("a plain system", func(t *testing.T) { OnAPlainSystem(func() { test(t) }) })
}
