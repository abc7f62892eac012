// Package job reads and writes the job file and the readings file.
package job

import (
	"evendrop/tdc"
	"evendrop/tdc/mark"
)

// Job is a job file with the readings it names.
type Job struct {
	File      string // as it was named
	Title     string
	Unit      string // "mm" or "in", what bare lengths are written in
	Setup     tdc.Setup
	Cylinders []tdc.Cylinder
	Drive     mark.Drive
	Marks     []mark.Mark
}
