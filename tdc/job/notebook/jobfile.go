package notebook

import (
	"evendrop/tdc/job"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// Amend changes a job file, and is the job then. What would make no job of it is an
// *Error, and the file stays as it was; another program that saves it meanwhile loses
// nothing.
func Amend(path string, edit amend.Edit) (j job.Job, err error) {
	held, err := disk.Hold(path)
	if err != nil {
		return j, source.Of(path, writeProblem(err))
	}
	defer held.Close()
	err = untilAlone(held, func() error {
		before, err := held.Read()
		if err != nil {
			return err
		}
		if _, err := job.Amended(path, before); err != nil {
			return err // it was no job before
		}
		after, err := edit(before)
		if err != nil {
			return source.Of(path, err)
		}
		if j, err = job.Amended(path, after); err != nil {
			return err
		}
		return held.Rewrite(before, after)
	})
	return j, whole(path, err)
}
