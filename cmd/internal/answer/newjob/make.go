package newjob

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"evendrop/cmd/internal/usage"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// FileIn is the job file that begin makes in a folder.
func FileIn(folder string) string { return filepath.Join(folder, "job.toml") }

// In is a job to be made in a folder, where none of its files exists, nor anything else
// in the folder's place. What exists already is an error, but for the readings file of a
// begin that was killed half-way.
func In(folder string) (Begun, error) {
	b := Begun{JobFile: FileIn(folder), ReadingsFile: filepath.Join(folder, "cylinder-1.csv")}
	if info, err := os.Stat(folder); err == nil && !info.IsDir() {
		return b, fmt.Errorf("%s: is a file: choose another name for the folder", folder)
	}
	for _, file := range []string{b.JobFile, b.ReadingsFile} {
		if _, err := os.Lstat(file); err == nil && !(file == b.ReadingsFile && b.halfMade()) {
			return b, fmt.Errorf("%s: already exists, and begin overwrites nothing: choose another folder, or move it away first", file)
		}
	}
	return b, nil
}

// halfMade tells whether the readings file is one of a begin that was killed before it
// wrote the job file: what begin writes, and no job beside it.
func (b Begun) halfMade() bool {
	if _, err := os.Lstat(b.JobFile); err == nil {
		return false
	}
	data, err := disk.ReadFile(b.ReadingsFile, errors.New("not found"))
	return err == nil && bytes.Equal(data, b.Readings())
}

// Make writes both files and then says so: all or none. An error is of a job that cannot be
// read back, of a folder or file that cannot be written, or say's.
func (b Begun) Make(say func() error) error {
	if wrong, ok := errors.AsType[*source.Error](job.CheckBlank(b.JobFile, b.Job())); ok {
		return usage.Errorf("this job cannot be made: %s", wrong.Problem)
	}
	var together disk.Together
	if err := together.MakeFolder(filepath.Dir(b.JobFile)); err != nil {
		return err
	}
	// the readings file first: a job file never names one that does not exist
	if !b.halfMade() {
		together.Write(b.ReadingsFile, b.Readings(), false)
	}
	together.Write(b.JobFile, b.Job(), false)
	return together.DoneWith(say)
}
