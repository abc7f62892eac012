package job

import (
	"errors"

	"evendrop/tdc/job/source"
	"evendrop/tdc/mark"
)

// Locate is an error of the job's marks or drive with the file and, where it is
// of one of them, its line.
func (j Job) Locate(err error) error {
	located := &source.Error{File: j.File, Problem: err.Error()}
	if of, ok := errors.AsType[*mark.Error](err); ok {
		lines := j.markLines
		if of.Joint {
			lines = j.jointLines
		}
		if of.Index < len(lines) {
			located.Line = lines[of.Index]
		}
	}
	return located
}
