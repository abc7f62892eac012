// Package job reads and writes the files of a job.
//
// A job file is TOML: the engine, the instruments, the cylinders with the readings
// files they name, the drive and its marks; a known-good file is the marks of healthy
// engines in the same form. A readings file is CSV, an angle and a depth a row, as
// somebody read them off; so is a file of stops. Any of them may be wrong in more ways
// than it can be right, so every refusal is an Error that names the file, the line and
// the column where there is one, and says what to type instead.
package job

import (
	"path/filepath"
	"strings"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
)

// Job is a job file with the readings it names.
type Job struct {
	File      string // as it was named
	Title     string
	Date      string // as it was written; "" unless said
	Unit      string // "mm" or "in", what bare lengths are written in
	Setup     evidence.Setup
	Cylinders []evidence.Cylinder // by number
	// ReadingsFiles are the readings files, by the number of their cylinder.
	ReadingsFiles map[int]string
	Drive         mark.Drive
	Marks         []mark.Mark

	markLines, jointLines []int // of the tables that they were read from
}

// noJob is said of a job file that is not there.
var noJob = source.Curable{Problem: "not found: check the name", Cure: source.NewJob}

// Open reads a job file and the readings files it names. Those are looked for
// from the job file's folder, and never outside it. Whatever is wrong with
// either is an *Error.
func Open(path string) (Job, error) { return openJob(path, disk.FolderOf(path).Read) }

// OpenTrusting is Open of a job file that is trusted to name readings files
// anywhere.
func OpenTrusting(path string) (Job, error) { return openJob(path, disk.FolderOf(path).ReadAnywhere) }

func openJob(path string, open func(name string) ([]byte, error)) (Job, error) {
	data, err := disk.ReadFile(path, noJob)
	switch {
	case err != nil:
		return Job{}, err
	case strings.EqualFold(filepath.Ext(path), ".csv"):
		return Job{}, source.Of(path, source.Curable{Problem: "is a readings file by its name: name the job file", Cure: source.AsReadings})
	}
	return parse(path, data, open)
}

// parse reads the bytes of a job file. The readings files that it names are
// asked of open; an error of open's says in words what is wrong with the name.
func parse(name string, data []byte, open func(name string) ([]byte, error)) (Job, error) {
	d := decoder{open: open, job: Job{File: name, Unit: "mm"}}
	if err := toml.Read(name, data, []string{"cylinder", "joint", "mark"}, d.decode); err != nil {
		return Job{}, err
	}
	return d.job, nil
}
