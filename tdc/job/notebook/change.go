package notebook

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"time"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
)

// change has a page changed and writes it, and is its readings then. It tells whether
// only what was added has to be written, or nothing. When another program wrote the
// file at the same time the page is made anew; tried is told what could not be sure.
func (n *Notebook) change(edit func(p *sheet.Page, readings []evidence.Reading) (appended, done bool), tried func([]evidence.Reading)) (readings []evidence.Reading, err error) {
	err = n.again(func() error {
		data, err := n.look()
		if err != nil {
			return err
		}
		before, err := n.take(data)
		if err != nil {
			return err
		}
		p, err := sheet.NewPage(n.path, data, n.unit)
		if err != nil {
			return err
		}
		appended, done := edit(&p, before)
		if readings = before; done {
			return nil
		}
		after, err := n.readings(p.Data())
		if err != nil {
			return err
		}
		if err = n.write(data, p, appended); err == nil {
			readings, n.last = after, len(after)
		} else if tried != nil && errors.Is(err, disk.ErrChanged) {
			tried(after)
		}
		return err
	})
	return readings, n.wrong(err)
}

// triedFor is how long an entry is tried while another program saves the file again and
// again.
const triedFor = 10 * time.Second

// again does something with the file until no other program comes between.
func (n *Notebook) again(do func() error) error {
	n.blank = time.Time{}
	for until := time.Now().Add(triedFor); ; time.Sleep(rand.N(4 * time.Millisecond)) {
		err := n.held.Alone(do)
		if !errors.Is(err, errSaving) && !errors.Is(err, disk.ErrChanged) || time.Now().After(until) {
			return err
		}
	}
}

// write writes a page: only what was added to it, where that is all.
func (n *Notebook) write(before []byte, p sheet.Page, appended bool) error {
	switch {
	case before == nil: // there is none
		return n.held.Create(p.Data())
	case !appended || len(before) == 0:
		return n.held.Rewrite(before, p.Data())
	}
	return n.held.Add(before, p.Filed(p.Added))
}

// wrong is an error with the file's name.
func (n *Notebook) wrong(err error) error {
	_, located := errors.AsType[*source.Error](err)
	_, emptied := errors.AsType[*Emptied](err)
	if err == nil || located || emptied || errors.Is(err, sheet.ErrGone) {
		return err
	}
	return source.Of(n.path, notebookProblem(err))
}

// notebookProblem says why a line cannot be added to a file.
func notebookProblem(err error) error {
	said, ok := errors.AsType[disk.ErrUnplain](err)
	switch {
	case ok:
		return said
	case errors.Is(err, disk.ErrLeaves), errors.Is(err, disk.ErrUnwritable), errors.Is(err, disk.ErrChanged), errors.Is(err, errSaving):
		return err
	case errors.Is(err, fs.ErrPermission):
		return disk.ErrUnwritable
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("its folder does not exist: make it first")
	}
	return fmt.Errorf("cannot be written: %w", firstCause(err))
}

// firstCause is what the system said first, of errors that may be several.
func firstCause(err error) error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		return disk.Cause(joined.Unwrap()[0])
	}
	return disk.Cause(err)
}
