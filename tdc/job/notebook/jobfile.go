package notebook

import (
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
)

// Files are the files of a job that are written into at the bench, each opened once.
type Files struct {
	File  string // the job file
	Unit  string
	Setup evidence.Setup
	books []*Notebook
}

// Amend changes the job file, and is the job then. What would make no job of it is an
// *Error, and the file stays as it was; another program that saves it meanwhile loses
// nothing.
func (f *Files) Amend(edit amend.Edit) (j job.Job, err error) {
	held, err := disk.Hold(f.File)
	if err != nil {
		return j, source.Of(f.File, writeProblem(err))
	}
	defer held.Close()
	err = untilAlone(held, func() error {
		before, err := held.Read()
		if err != nil {
			return err
		}
		if _, err := job.Amended(f.File, before); err != nil {
			return err // it was no job before
		}
		after, err := edit(before)
		if err != nil {
			return source.Of(f.File, err)
		}
		if j, err = job.Amended(f.File, after); err != nil {
			return err
		}
		return held.Rewrite(before, after)
	})
	return j, whole(f.File, err)
}

// Sheet opens a file of readings or lifts. An error is of a file that cannot be held or
// read.
func (f *Files) Sheet(path string, kind sheet.Kind) (*Notebook, string, error) {
	n, says, err := Open(path, kind, f.Setup, f.Unit)
	if err == nil {
		f.books = append(f.books, n)
	}
	return n, says, err
}

// Photo is a picture in the job's folder, as the job would have it. An error says in words
// what is wrong with it.
func (f *Files) Photo(name string) (record.Picture, error) { return job.Picture(f.File, name) }

// Close lets other processes write the files.
func (f *Files) Close() {
	for _, n := range f.books {
		n.Close()
	}
}
