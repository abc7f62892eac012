package job

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// Write writes a file that appears whole or not at all, whatever happens on the
// way. One that is there already stays as it is unless replace is set; then it
// keeps its mode, and a link to it stays a link. An error is an *Error.
func Write(path string, data []byte, replace bool) error {
	var together Together
	together.Write(path, data, replace)
	return together.Done()
}

// Together is files that are written all or none. They are put in their places, in
// the order in which they were named, when each is written down to the disk.
type Together struct{ pieces []piece }

// piece is a file of several.
type piece struct {
	path    string
	data    []byte
	replace bool
	before  []byte // what it must hold still; nil when that is all the same
	vacate  bool   // the one that is there goes before any file comes
	*draft
}

// Write adds a file, as the function Write writes it.
func (t *Together) Write(path string, data []byte, replace bool) {
	t.pieces = append(t.pieces, piece{path: path, data: data, replace: replace})
}

// WriteAfter is Write of a file that tells about the others, such as their answer: the
// old one goes before they come, and the new one comes after them, so that it never
// stands beside others than its own.
func (t *Together) WriteAfter(path string, data []byte, replace bool) {
	t.pieces = append(t.pieces, piece{path: path, data: data, replace: replace, vacate: true})
}

// Append adds tables such as [[mark]] at the end of a job file, as the function Append
// does.
func (t *Together) Append(path string, tables []byte) error {
	before, whole, err := appended(path, tables)
	if err == nil {
		t.pieces = append(t.pieces, piece{path: path, data: whole, replace: true, before: before})
	}
	return err
}

// Done writes the files. An error is an *Error, and all is as it was.
func (t *Together) Done() error { return t.DoneWith(func() error { return nil }) }

// DoneWith is Done with an answer that is given in between, when each file is written
// down and none is in its place. Without the answer there are no files.
func (t *Together) DoneWith(answer func() error) error {
	defer func() {
		for _, p := range t.pieces {
			p.close()
		}
	}()
	if err := t.each((*piece).draw); err != nil {
		return err
	}
	if err := answer(); err != nil {
		return err
	}
	err := t.each((*piece).makeRoom)
	if err == nil {
		err = t.each((*piece).put)
	}
	if err != nil {
		t.undo()
	}
	return err
}

// each does a step with every file.
func (t *Together) each(step func(*piece) error) error {
	for i := range t.pieces {
		if err := step(&t.pieces[i]); err != nil {
			return &Error{File: t.pieces[i].path, Problem: writeProblem(err)}
		}
	}
	return nil
}

// undo takes out of their places what was put there, the last first.
func (t *Together) undo() {
	for _, p := range slices.Backward(t.pieces) {
		if p.draft != nil {
			p.undo()
		}
	}
}

// draw writes the piece down to the disk.
func (p *piece) draw() error {
	target, old, err := destination(p.path, p.replace)
	if err != nil {
		return err
	}
	root, err := os.OpenRoot(filepath.Dir(target))
	if err != nil {
		return err
	}
	if p.draft, err = newDraft(root, filepath.Base(target), p.data, old); err != nil {
		root.Close()
	}
	return err
}

// makeRoom takes the old file away where it must go first.
func (p *piece) makeRoom() error {
	if !p.vacate || p.old == nil {
		return nil
	}
	return p.draft.makeRoom()
}

// put puts the piece in its place.
func (p *piece) put() error {
	if p.before == nil || p.old == nil {
		return p.place()
	}
	old, err := openPlain(p.root.Lstat, p.root.OpenFile, p.name, os.O_RDONLY)
	if err != nil {
		return err
	}
	defer old.Close()
	defer letGo(old)
	return p.placeOver(old, p.before, system.lease(old))
}

func (p *piece) close() {
	if p.draft != nil {
		p.drop()
		p.root.Close()
	}
}

// MayWrite is why Write would refuse the name, before there is anything to write; nil
// when it would not.
func MayWrite(path string, replace bool) error {
	if _, _, err := destination(path, replace); err != nil {
		return &Error{File: path, Problem: writeProblem(err)}
	}
	return nil
}

var (
	errNotPlain = errors.New("is no plain file, so it is left as it is: choose another name")
	errGuarded  = errors.New("may not be written, so it is left as it is: choose another name, or make it writable first")
)

// destination is where path leads, and the file there; nil of none.
func destination(path string, replace bool) (string, fs.FileInfo, error) {
	if _, err := os.Lstat(path); err != nil {
		return path, nil, nil // what is amiss shows when it is written
	}
	if !replace {
		return path, nil, fs.ErrExist
	}
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target
	}
	info, err := os.Lstat(path)
	switch {
	case err != nil:
		return path, nil, err
	case info.Mode()&fs.ModeSymlink != 0: // to nowhere
		return path, info, nil
	case info.IsDir():
		return path, nil, errIsFolder
	case !info.Mode().IsRegular():
		return path, nil, errNotPlain
	}
	return path, info, writable(path, info)
}

// writable refuses a file that may not be written, though another could take its
// place.
func writable(path string, info fs.FileInfo) error {
	if info.Mode().Perm()&0o222 == 0 {
		return errGuarded
	}
	file, err := os.OpenFile(path, os.O_WRONLY|noWait, 0)
	if errors.Is(err, fs.ErrPermission) {
		return errGuarded
	}
	if err == nil {
		file.Close()
	}
	return nil
}

// writeProblem says why a file cannot be written.
func writeProblem(err error) string {
	switch {
	case errors.Is(err, errIsFolder), errors.Is(err, errNotPlain), errors.Is(err, errGuarded), errors.Is(err, errChanged):
		return err.Error()
	case errors.Is(err, fs.ErrExist):
		return "is there already: choose another name, or type --replace to overwrite it"
	case errors.Is(err, fs.ErrNotExist):
		return "its folder is not there: make it first, or choose another"
	case errors.Is(err, fs.ErrPermission):
		return "may not be written: choose another folder"
	}
	return "cannot be written: " + cause(err).Error()
}
