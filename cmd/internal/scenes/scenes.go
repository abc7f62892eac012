// Package scenes is invented jobs, one of every sort that a page has to show well, to look
// at and to test with: nobody built the engines, and every title says so. Their pistons and
// cams move by formulas of their own, and the same scene is the same to the last digit.
package scenes

import (
	"os"
	"path/filepath"
)

// Names of the job files of a scene: after a repair the second one.
const (
	JobFile   = "job.toml"
	AfterFile = "after.toml"
)

// Scene is an invented job.
type Scene struct {
	Name   string // of its folder
	Shows  string // what there is to look at
	Repair bool   // it has a job after a repair too
	files  []file
}

type file struct{ name, text string }

// All are the scenes, in the order that somebody looks through them.
func All() []Scene {
	return []Scene{
		oneSlip(), stopOnly(), dwellOnly(), everyKind(), eightInInches(), quadrants(), longNames(), rightToLeft(), nothingOff(),
		cannotTell(), tooClose(), repaired(), toothLate(),
	}
}

// Write writes a scene's files into a folder of its name, which is made, and returns the
// folder. An error is the disk's.
func (s Scene) Write(dir string) (string, error) {
	dir = filepath.Join(dir, s.Name)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return dir, err
	}
	for _, f := range s.files {
		if err := os.WriteFile(filepath.Join(dir, f.name), []byte(f.text), 0o666); err != nil {
			return dir, err
		}
	}
	return dir, nil
}
