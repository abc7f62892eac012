package job

import (
	"bytes"
	"errors"
	"io/fs"
	"math/rand/v2"
	"time"

	"evendrop/tdc/evidence"
)

// change has a page changed and writes it, and is its readings then. It tells whether
// only what was added has to be written, or nothing. When another program wrote the
// file at the same time the page is made anew; tried is told what could not be sure.
func (n *Notebook) change(edit func(p *page, readings []evidence.Reading) (appended, done bool), tried func([]evidence.Reading)) (readings []evidence.Reading, err error) {
	err = n.again(func() error {
		data, err := n.look()
		if err != nil {
			return err
		}
		before, err := n.take(data)
		if err != nil {
			return err
		}
		p, err := newPage(n.path, data, n.unit)
		if err != nil {
			return err
		}
		appended, done := edit(&p, before)
		if readings = before; done {
			return nil
		}
		after, err := n.readings(p.data())
		if err != nil {
			return err
		}
		if err = n.write(data, p, appended); err == nil {
			readings, n.last = after, len(after)
		} else if tried != nil && errors.Is(err, errChanged) {
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
		err := n.held.alone(do)
		if !errors.Is(err, errSaving) && !errors.Is(err, errChanged) || time.Now().After(until) {
			return err
		}
	}
}

// write writes a page: only what was added to it, where that is all.
func (n *Notebook) write(before []byte, p page, appended bool) error {
	switch {
	case before == nil: // there is none
		return n.held.create(p.data())
	case !appended || len(before) == 0:
		return n.held.rewrite(before, p.data())
	}
	return n.held.add(before, p.filed(p.added))
}

// wrong is an error with the file's name.
func (n *Notebook) wrong(err error) error {
	_, located := errors.AsType[*Error](err)
	_, emptied := errors.AsType[*Emptied](err)
	if err == nil || located || emptied {
		return err
	}
	return &Error{File: n.path, Problem: notebookProblem(err)}
}

// notebookProblem says why a line cannot be added to a file.
func notebookProblem(err error) string {
	said, ok := errors.AsType[errUnplain](err)
	switch {
	case ok:
		return said.Error()
	case errors.Is(err, errLeaves), errors.Is(err, errUnwritable), errors.Is(err, errChanged), errors.Is(err, errSaving):
		return err.Error()
	case errors.Is(err, fs.ErrPermission):
		return errUnwritable.Error()
	case errors.Is(err, fs.ErrNotExist):
		return "its folder is not there: make it first"
	}
	return "cannot be written: " + firstCause(err).Error()
}

// firstCause is what the system said first, of errors that may be several.
func firstCause(err error) error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		return cause(joined.Unwrap()[0])
	}
	return cause(err)
}

// lineEnd is what a file's lines end in.
func lineEnd(data []byte) string {
	switch {
	case bytes.Contains(data, []byte("\r\n")):
		return "\r\n"
	case bytes.Contains(data, []byte("\r")) && !bytes.Contains(data, []byte("\n")):
		return "\r"
	}
	return "\n"
}
