// Package jobtest invents whole jobs for tests: an engine that nobody built, read on
// instruments of every kind, in every unit and scale, with evidence and marks of every
// kind, written down as a job folder that opens without an error.
//
// It knows none of the program that it tests: the engine has kinematics of its own,
// and the files are written from what the README says of them.
package jobtest

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// JobFile and HealthyFile are the names of a job's files that are no readings.
const (
	JobFile     = "job.toml"
	HealthyFile = "healthy.toml"
)

// Job is an invented job, and what is true of it.
type Job struct {
	Kinds     []string // what is in it, such as "stops", "two cams" or "wraps 90"
	Cylinders []Cylinder
	Marks     int // how many there are
	Again     int // how many of them were read in a second set as well
	Lobes     []Lobe
	Healthy   bool     // HealthyFile is known-good figures for some of the marks
	Motion    []string // the engine as flags of evendrop motion; nil where a dimension is unknown
	Shifts    []string // shifts of marks as words for evendrop convert, with semicolons between the words
	files     []file
}

// Cylinder is one cylinder of a job.
type Cylinder struct {
	Number       int
	TDC          float64  // degrees in the running direction from the protractor's zero, as a wheel without error shows it
	ReadingsFile string   // "" without readings
	Typed        []string // its readings as lines of evendrop jot, the first of a set below the line that begins it
	Pairs        []string // angles of its stops as words for evendrop halve
}

type file struct{ name, text string }

// Jobs draws jobs.
func Jobs() *rapid.Generator[Job] {
	return rapid.Custom(func(t *rapid.T) Job {
		b := bench{chance: newChance(t)}
		b.invent()
		return b.job
	})
}

// Has tells whether something is in the job.
func (j Job) Has(kind string) bool { return slices.Contains(j.Kinds, kind) }

// Write writes the job's files into a folder, which is made. An error is the disk's.
func (j Job) Write(dir string) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	for _, f := range j.files {
		if err := os.WriteFile(filepath.Join(dir, f.name), []byte(f.text), 0o666); err != nil {
			return err
		}
	}
	return nil
}

// String is the job's files, one below the other.
func (j Job) String() string {
	var out strings.Builder
	for _, f := range j.files {
		fmt.Fprintf(&out, "==> %s <==\n%s\n", f.name, f.text)
	}
	return out.String()
}
