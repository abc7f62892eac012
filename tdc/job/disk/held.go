package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"evendrop/tdc/job/source"
	"evendrop/tdc/job/system"
)

// Held is a file that this process alone adds to: locked by itself, whatever it is
// named by, and found by its name in a folder that is kept open, without following
// links. Programs that know of no lock may save it in place or put another file in
// its place at any moment.
type Held struct {
	path   string // as it was named
	root   *os.Root
	name   string
	file   *os.File // nil while there is none
	leased bool
}

// Hold holds the file that path leads to, which need not be there; an error where its folder
// is not, or a link leads out of it.
func Hold(path string) (*Held, error) {
	folder, name := filepath.Dir(path), filepath.Base(path)
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, err
	}
	h := &Held{path: path, root: root, name: name}
	if info, err := root.Lstat(name); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		err = h.follow(folder)
		if err != nil {
			root.Close()
			return nil, err
		}
	}
	return h, nil
}

// follow holds what the name is a link to, in the folder or below it.
func (h *Held) follow(folder string) error {
	folder, err := filepath.EvalSymlinks(folder)
	if err != nil {
		return err
	}
	target, err := filepath.EvalSymlinks(h.path)
	if err != nil {
		return err
	}
	if h.name, err = filepath.Rel(folder, target); err != nil || !filepath.IsLocal(h.name) {
		return ErrLeaves
	}
	root, err := h.root.OpenRoot(filepath.Dir(h.name))
	if err == nil {
		h.root.Close()
		h.root, h.name = root, filepath.Base(h.name)
	}
	return err
}

// Close lets go of the file.
func (h *Held) Close() {
	h.forget()
	h.root.Close()
}

func (h *Held) forget() {
	if h.file != nil {
		h.file.Close()
		h.file = nil
	}
}

// Alone runs what looks and then writes, while no other program can open the file,
// where the system knows a way. An error is Find's, or do's.
func (h *Held) Alone(do func() error) error {
	if _, err := h.Find(); err != nil {
		return err
	}
	if h.file != nil {
		if h.leased = system.Able.Lease(h.file); h.leased {
			file := h.file
			defer system.LetGo(file)
		}
	}
	defer func() { h.leased = false }()
	return do()
}

// Find has the file open that has the name now, and locked. There is none when it
// says so. An error is of a file that nobody may write into (ErrUnwritable), is no plain
// one, was put in its place just now (ErrChanged), or is held by another program.
func (h *Held) Find() (there bool, err error) {
	info, err := h.root.Lstat(h.name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, err
	case h.file != nil:
		if mine, err := h.file.Stat(); err == nil && os.SameFile(mine, info) {
			return true, nil
		}
	}
	if info.Mode().Perm()&0o222 == 0 {
		return false, ErrUnwritable
	}
	file, err := openPlain(h.root.Lstat, h.root.OpenFile, h.name, os.O_RDWR|os.O_APPEND)
	if err != nil {
		return false, err
	}
	opened, err := file.Stat()
	switch {
	case err == nil && !os.SameFile(opened, info):
		err = ErrChanged
	case err == nil:
		err = system.LockFile(file)
	}
	if errors.Is(err, system.ErrHeld) {
		err = heldBy(opened)
	}
	if err != nil {
		file.Close()
		return false, err
	}
	h.forget()
	h.file = file
	return true, nil
}

// ErrUnwritable is a file that may not be written.
var ErrUnwritable = errors.New("may not be written: check who may write it")

// heldBy says who holds a file.
func heldBy(info fs.FileInfo) error {
	if pid := system.Holder(info); pid > 0 {
		return ErrUnplain(fmt.Sprintf("another evendrop (process %d) is writing it: end that one first", pid))
	}
	return ErrUnplain("another evendrop is writing it: end that one first")
}

// Read is what the file holds; nil when there is none. Where an editor cannot be kept
// from saving at the same time, it is read until it stands still.
func (h *Held) Read() ([]byte, error) {
	there, err := h.Find()
	if err != nil || !there {
		return nil, err
	}
	data, err := h.whole()
	for range 20 {
		if err != nil || h.leased {
			break
		}
		time.Sleep(2 * time.Millisecond)
		before := data
		if data, err = h.whole(); bytes.Equal(before, data) {
			break
		}
	}
	return data, err
}

func (h *Held) whole() ([]byte, error) {
	return ReadAll(io.NewSectionReader(h.file, 0, source.Most+1))
}
