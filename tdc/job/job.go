// Package job reads and writes the files of a job.
//
// A job file is TOML: the engine, the instruments, the cylinders with the readings
// files they name, the drive and its marks; a known-good file is the marks of healthy
// engines in the same form. A readings file is CSV, an angle and a depth a row, as
// somebody read them off; so are files of stops and of a cam lobe's lifts. Photos are JPEG or PNG. Any of them may be wrong in more ways
// than it can be right, so every refusal is an Error that names the file, the line and
// the column where there is one, and says what to type instead.
package job

import (
	"errors"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/lobe"
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
	Lobes         []lobe.Lobe
	LobeFiles     []string // of lifts, as Lobes are in order
	Sheet         record.Sheet
	// Photos are in the order of the file; of one that was not looked at the Picture is zero.
	Photos []record.Photo

	markLines, jointLines, lobeLines []int   // of the tables that they were read from
	markSets                         []place // of the marks' sets, as written
}

// place is a line and a column of the job file, from 1; zero of what is not written.
type place struct{ line, column int }

// files reads what a job file names. An error says in words what is wrong with the name.
type files struct {
	text  func(name string) ([]byte, error)
	photo func(name string) ([]byte, error) // nil: photos are not looked at
}

// allOf is the files of a folder.
func allOf(f folder) files {
	return files{f.Read, func(name string) ([]byte, error) { return f.ReadUpTo(name, photoLimit) }}
}

// parse reads the bytes of a job file, and the files that it names.
func parse(name string, data []byte, of files) (Job, error) {
	d := decoder{files: of, job: Job{File: name, Unit: "mm"}}
	if err := toml.Read(name, data, amend.Several, d.decode); err != nil {
		return Job{}, err
	}
	return d.job, nil
}

// OpenReadings reads a readings file that the user named, as ReadReadings does. An error is
// of a file that cannot be read, is a job file by its name, or is wrong inside: then an
// *Error with the line.
func OpenReadings(path string, setup evidence.Setup, unit string) ([]evidence.Reading, error) {
	data, err := disk.ReadFile(path, errors.New("not found: check the name of the readings file"))
	switch {
	case err != nil:
		return nil, err
	case strings.EqualFold(filepath.Ext(path), ".toml"):
		return nil, source.Of(path, source.Curable{Problem: "is a job file by its name, not a readings file", Cure: source.AsJob})
	}
	return sheet.ReadReadings(path, data, setup, unit)
}

// Locate is an error of the job's marks or drive with the file and, where it is
// of one of them, its line; of its set, where that is written.
func (j Job) Locate(err error) error {
	located := &source.Error{File: j.File, Problem: err.Error()}
	if of, ok := errors.AsType[*mark.Error](err); ok {
		lines, index := j.markLines, of.Index
		switch {
		case of.Joint:
			lines = j.jointLines
		case of.Lobe != "":
			lines, index = j.lobeLines, slices.IndexFunc(j.Lobes, func(l lobe.Lobe) bool {
				return l.Name == of.Lobe && evidence.SetOf(l.Set) == of.LobeSet
			})
		}
		if index >= 0 && index < len(lines) {
			located.Line = lines[index]
		}
		if of.Set && of.Index < len(j.markSets) && j.markSets[of.Index].line > 0 {
			located.Line, located.Column = j.markSets[of.Index].line, j.markSets[of.Index].column
		}
	}
	return located
}

// Same tells whether two jobs say the same of the same engine under whatever names:
// every reading, mark and dimension, title and date. Whose car it was is no part of that.
func Same(a, b Job) bool { return reflect.DeepEqual(a.content(), b.content()) }

// SameReadings tells whether all that two jobs have on their TDC was read alike, to
// the last digit.
func SameReadings(a, b Job) bool {
	return reflect.DeepEqual(a.content().Cylinders, b.content().Cylinders)
}

// content is what a job says, without where it says it.
func (j Job) content() Job {
	j.File, j.ReadingsFiles, j.LobeFiles, j.markLines, j.markSets, j.jointLines, j.lobeLines = "", nil, nil, nil, nil, nil, nil
	j.Sheet, j.Photos = record.Sheet{}, nil
	j.Marks = slices.Clone(j.Marks)
	for i := range j.Marks {
		j.Marks[i].Set = evidence.SetOf(j.Marks[i].Set)
	}
	j.Cylinders = slices.Clone(j.Cylinders)
	for i, c := range j.Cylinders {
		j.Cylinders[i].Readings = slices.Clone(c.Readings)
		for k := range c.Readings {
			r := &j.Cylinders[i].Readings[k]
			*r = evidence.Reading{Angle: r.Angle, Depth: r.Depth, Turn: r.Turn, Set: evidence.SetOf(r.Set)}
		}
	}
	j.Lobes = slices.Clone(j.Lobes)
	for i, l := range j.Lobes {
		j.Lobes[i].Set = evidence.SetOf(l.Set)
		j.Lobes[i].Readings = slices.Clone(l.Readings)
		for k := range l.Readings {
			r := &j.Lobes[i].Readings[k]
			*r = lobe.Reading{Angle: r.Angle, Lift: r.Lift, Turn: r.Turn}
		}
	}
	return j
}
