package job

import (
	"bytes"
	"errors"
	"fmt"

	"evendrop/tdc/mark"
)

// Append writes tables such as [[mark]] to the end of a job file, whose own text
// stays byte for byte, whole or not at all. What would not open as a job after
// that, such as a mark with a name that is there already, is an *Error, and the
// file stays as it was.
func Append(path string, tables []byte) error {
	var together Together
	if err := together.Append(path, tables); err != nil {
		return err
	}
	return together.Done()
}

// appended is what a job file holds, and what it is to hold with tables at its end.
func appended(path string, tables []byte) (before, whole []byte, err error) {
	before, err = ReadFile(path, noJob)
	if err != nil {
		return nil, nil, err
	}
	end := lineEnd(before)
	whole = bytes.Clone(before)
	if len(before) > 0 && before[len(before)-1] != '\n' {
		whole = append(whole, end...)
	}
	whole = append(whole, end...)
	whole = append(whole, bytes.ReplaceAll(tables, []byte("\n"), []byte(end))...)
	if len(whole) > maxFile {
		return nil, nil, &Error{File: path, Problem: "would become larger than 1 MB: nothing was written"}
	}
	return before, whole, fits(path, before, whole)
}

// fits refuses tables that would make no job of the file, or would put marks on
// members that the drive lacks. It tells them from faults that were there before:
// the lines of the tables are on no screen.
func fits(path string, data, whole []byte) error {
	j, err := parse(path, whole, folderOf(path).read)
	if err == nil {
		if of := mark.Check(j.Drive, j.Marks); of != nil {
			err = j.Locate(of)
		}
	}
	own := bytes.Count(data, []byte("\n")) + 1
	if e, ok := errors.AsType[*Error](err); ok && e.File == path && e.Line > own {
		return &Error{File: path, Problem: fmt.Sprintf("what would be added does not fit, and nothing was written: %s", e.Problem)}
	}
	return err
}
