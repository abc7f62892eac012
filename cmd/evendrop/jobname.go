package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/knowngood"
)

// What the usage texts say of a job's name.
const (
	aJobHere  = "JOB is a job file, a folder with a job.toml, or a zip of such a folder. Left\nout, it is the folder you are in.\n"
	aJobToAdd = "JOB is a job file, or a folder with a job.toml. Left out, it is the folder you\nare in.\n"
)

// jobNamed is the one job that a command line names, or else the job of the folder that it
// was typed in.
func (c console) jobNamed(command string, given []string) (string, error) {
	switch {
	case len(given) == 1:
		return given[0], nil
	case len(given) > 1:
		return "", misuse("%s takes one job, and was given %s: type for example evendrop %[1]s job.toml", command, words.Count(len(given), "job"))
	case !jobHere():
		return "", misuse("%s needs a job. The folder you are in has no %s: type for example evendrop %[1]s examples/builder, "+
			"or evendrop begin DIR to make one", command, job.FileName)
	}
	return c.jobOfHere(), nil
}

// jobHere tells whether the folder one is in has a job.
func jobHere() bool { return !disk.Folder(".").Missing(job.FileName) }

// jobOfHere is the job of the folder one is in, which nobody named, and so is said.
func (c console) jobOfHere() string {
	c.tell("No job was named: this is %s of the folder you are in.", job.FileName)
	return job.FileName
}

// jobToAddTo opens the job that a command line names as jobNamed does, into whose folder
// something is to be written.
func (c console) jobToAddTo(command string, given []string) (job.Job, error) {
	name, err := c.jobNamed(command, given)
	if err != nil {
		return job.Job{}, err
	}
	file, err := job.OnDisk(name)
	if err != nil {
		return job.Job{}, err
	}
	return job.OpenBlank(file)
}

// kept is the jobs that a command line names and the known-good file that they go into,
// which comes last. A name that stands alone is the file's where it is no job's.
func (c console) kept(given []string) (jobs []string, file string, err error) {
	switch {
	case len(given) > 1:
		last := len(given) - 1
		return slices.Clone(given[:last]), given[last], nil
	case len(given) == 1 && isJob(given[0]):
		return nil, "", misuse("keep was given a job and no file to write: type for example evendrop keep %s known-good.toml", words.ShellWord(given[0]))
	case len(given) == 0 || !jobHere():
		return nil, "", misuse("keep takes one job or more and the file to write: type for example evendrop keep job.toml known-good.toml")
	}
	return []string{c.jobOfHere()}, given[0], nil
}

// isJob tells whether a name is more likely a job's than a known-good file's that is yet to
// be written or written over.
func isJob(name string) bool {
	_, err := os.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return strings.EqualFold(filepath.Ext(name), ".zip")
	}
	_, err = knowngood.Open(name)
	return err != nil
}

// place is where among a job's cylinders the one of a number is.
func place(cylinders []evidence.Cylinder, number int) (int, error) {
	n := slices.IndexFunc(cylinders, func(c evidence.Cylinder) bool { return c.Number == number })
	if n < 0 {
		return 0, misuse("--cylinder %d: the job has no such cylinder%s", number, instead(cylinders, func(c evidence.Cylinder) string { return strconv.Itoa(c.Number) }))
	}
	return n, nil
}

// instead is what of a list could be named; empty of none.
func instead[T any](list []T, name func(T) string) string {
	var names []string
	for _, each := range list {
		if !slices.Contains(names, name(each)) { // a lobe may be read in several sets
			names = append(names, name(each))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return ": expected " + words.Or(names)
}
