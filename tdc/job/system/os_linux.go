package system

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sys/unix"
)

// unnamed makes a file in a folder that has no name yet: nothing of it stays behind
// when the process is killed.
func unnamed(dir *os.File) (*os.File, error) {
	fd, err := unix.Openat(int(dir.Fd()), ".", unix.O_TMPFILE|os.O_RDWR|os.O_APPEND|unix.O_CLOEXEC, 0o666)
	if err != nil {
		return nil, err
	}
	return os.NewFile(uintptr(fd), dir.Name()), nil
}

// GiveName names an unnamed file, where no other has the name. An error is the system's.
func GiveName(dir, file *os.File, name string) error {
	return unix.Linkat(unix.AT_FDCWD, fmt.Sprintf("/proc/self/fd/%d", file.Fd()), int(dir.Fd()), name, unix.AT_SYMLINK_FOLLOW)
}

// swap has two files of a folder trade names, in one step that nothing comes between.
func swap(root *os.Root, dir *os.File, one, other string) error {
	err := unix.Renameat2(int(dir.Fd()), one, int(dir.Fd()), other, unix.RENAME_EXCHANGE)
	if errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) {
		return SwapByLink(root, one, other)
	}
	return err
}

// leaseWait is how long another program may keep the file open: editors do for as
// long as they save, viewers for good.
const leaseWait = 100 * time.Millisecond

// lease keeps every other program from opening a file: it waits in its open until
// the lease is let go. False when the file system has none, or a program keeps the
// file open.
func lease(file *os.File) bool {
	for until := time.Now().Add(leaseWait); ; time.Sleep(300 * time.Microsecond) {
		_, err := unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_WRLCK)
		if err == nil {
			return true
		}
		if !errors.Is(err, unix.EAGAIN) || time.Now().After(until) {
			return false
		}
	}
}

// LetGo ends a lease.
func LetGo(file *os.File) { _, _ = unix.FcntlInt(file.Fd(), unix.F_SETLEASE, unix.F_UNLCK) }

// Awaited tells whether a program waits for the lease of a file to end.
func Awaited(file *os.File) bool {
	kind, err := unix.FcntlInt(file.Fd(), unix.F_GETLEASE, 0)
	return err == nil && kind != unix.F_WRLCK
}

// Holder is the process that has a file locked; 0 when that cannot be determined.
func Holder(info fs.FileInfo) int {
	stat, ok := info.Sys().(*syscall.Stat_t)
	locks, err := os.ReadFile("/proc/locks")
	if !ok || err != nil {
		return 0
	}
	end := fmt.Sprintf(":%d", stat.Ino)
	for line := range bytes.Lines(locks) {
		var order, class, how, access, where string
		var pid int
		if _, err := fmt.Sscan(string(line), &order, &class, &how, &access, &pid, &where); err == nil && class == "FLOCK" && strings.HasSuffix(where, end) {
			return pid
		}
	}
	return 0
}
