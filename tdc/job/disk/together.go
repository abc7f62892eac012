package disk

import (
	"os"
	"path/filepath"
	"slices"

	"evendrop/tdc/job/source"
	"evendrop/tdc/job/system"
)

// Together is files that are written all or none. They are put in their places, in
// the order in which they were named, when each is written down to the disk.
type Together struct {
	pieces []piece
	made   []string // folders, the innermost first
}

// piece is a file of several.
type piece struct {
	path    string
	data    []byte
	replace bool
	before  []byte // what it must hold still; nil when that is all the same
	vacate  bool   // the one that is there goes before any file comes
	*draft
}

// Write adds a file that appears whole or not at all, whatever happens on the way. One
// that already exists stays as it is unless replace is set; then it keeps its mode, and
// a link to it stays a link.
func (t *Together) Write(path string, data []byte, replace bool) {
	t.pieces = append(t.pieces, piece{path: path, data: data, replace: replace})
}

// WriteAfter is Write of a file that tells about the others, such as their answer: the
// old one goes before they come, and the new one comes after them, so that it never
// stands beside others than its own.
func (t *Together) WriteAfter(path string, data []byte, replace bool) {
	t.pieces = append(t.pieces, piece{path: path, data: data, replace: replace, vacate: true})
}

// Rewrite adds a file that is there and must hold before still, or else stays as it is.
func (t *Together) Rewrite(path string, before, data []byte) {
	t.pieces = append(t.pieces, piece{path: path, data: data, replace: true, before: before})
}

// DoneWith writes the files. The answer is given in between, when each file is written
// down and none is in its place; without it there are no files. An error of a file is a
// *source.Error, and all is as it was.
func (t *Together) DoneWith(answer func() error) (err error) {
	defer func() {
		for _, p := range t.pieces {
			p.close()
		}
		if err != nil {
			t.unmake()
		}
	}()
	if err := t.each((*piece).draw); err != nil {
		return err
	}
	if err := answer(); err != nil {
		return err
	}
	err = t.each((*piece).makeRoom)
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
			return source.Of(t.pieces[i].path, writeProblem(err))
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

func (p *piece) put() error {
	if p.before == nil || p.old == nil {
		return p.place()
	}
	old, err := openPlain(p.root.Lstat, p.root.OpenFile, p.name, os.O_RDONLY)
	if err != nil {
		return err
	}
	defer old.Close()
	defer system.LetGo(old)
	return p.placeOver(old, p.before, system.Able.Lease(old))
}

func (p *piece) close() {
	if p.draft != nil {
		p.drop()
		p.root.Close()
	}
}
