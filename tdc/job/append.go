package job

import (
	"bytes"
	"errors"
	"fmt"

	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
	"evendrop/tdc/mark"
)

// Append adds a job file to files, with tables such as [[mark]] at its end; its own text
// stays byte for byte. What would not open as a job after
// that, such as a mark with a name that already exists, is an *Error, and the
// file stays as it was.
func Append(files *disk.Together, path string, tables []byte) error {
	before, err := disk.ReadFile(path, noJob)
	if err != nil {
		return err
	}
	whole, err := amend.With(append([]byte("\n"), tables...))(before)
	if err != nil {
		return err
	}
	if len(whole) > source.Most {
		return &source.Error{File: path, Problem: "would become larger than 1 MB: nothing was written"}
	}
	if err := fits(path, before, whole); err != nil {
		return err
	}
	files.Rewrite(path, before, whole)
	return nil
}

// fits refuses tables that would make no job of the file, or would put marks on
// members that the drive lacks. It tells them from faults that were there before:
// the lines of the tables are on no screen.
func fits(path string, data, whole []byte) error {
	j, err := parse(path, whole, files{text: disk.FolderOf(path).Read})
	if err == nil {
		if of := mark.Check(j.Drive, j.Marks); of != nil {
			err = j.Locate(of)
		}
	}
	own := bytes.Count(data, []byte("\n")) + 1
	if e, ok := errors.AsType[*source.Error](err); ok && e.File == path && e.Line > own {
		return &source.Error{File: path, Problem: fmt.Sprintf("what would be added does not fit, and nothing was written: %s", e.Problem)}
	}
	return err
}
