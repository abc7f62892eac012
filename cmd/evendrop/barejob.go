package main

import (
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// bareJob is the flags that stand for a job file.
type bareJob struct {
	*flags.Set
	setupFlags
	readings *string
	pins     []string
	limit    geometry.Angle
}

// withoutJob is the heading of the flags that make no sense beside a job file.
const withoutJob = "Without a job file"

func newBareJob(set *flags.Set) *bareJob {
	b := &bareJob{Set: set}
	set.Heading(withoutJob)
	b.readings = set.Text("readings", "FILE", "angle,depth[,turn][,sweep][,note] with a header row")
	b.setupFlags = newSetupFlags(set)
	set.Heading("Crank locking pin")
	flags.List(set, &b.pins, "pin", "DEG", "protractor reading with the crank locking pin in line (repeatable)", flags.One)
	set.Angle(&b.limit, "pin-limit", "allowed either way")
	return b
}

// open is the job that the command line names, by file or by flags.
func (b *bareJob) open(files []string, open func(file string) (job.Job, error)) (job.Job, error) {
	switch {
	case len(files) > 1:
		return job.Job{}, misuse("find takes one job file, and was given %d: type for example evendrop find job.toml", len(files))
	case len(files) == 1:
		for _, name := range b.From(withoutJob) {
			if b.Given(name) {
				return job.Job{}, misuse("--%s does not go with a job file: write it into %s", name, files[0])
			}
		}
		return open(files[0])
	case !b.Given("readings"):
		return job.Job{}, misuse("find needs a job file or --readings FILE: type for example evendrop find examples/builder/job.toml, or evendrop find --help")
	}
	return b.fromFlags()
}

func (b *bareJob) fromFlags() (job.Job, error) {
	j := job.Job{File: *b.readings, Unit: *b.unit}
	var err error
	if j.Setup, err = b.setup(); err != nil {
		return j, err
	}
	readings, err := job.OpenReadings(j.File, j.Setup, j.Unit)
	if err != nil {
		return j, err
	}
	j.Cylinders = []evidence.Cylinder{{Number: 1, Readings: readings}}
	j.Marks, err = b.marks(j.Setup.Protractor)
	return j, err
}

// marks is the locking pin that the flags describe, if they do.
func (b *bareJob) marks(p evidence.Protractor) ([]mark.Mark, error) {
	if len(b.pins) == 0 {
		return nil, nil
	}
	pin := mark.Mark{Name: "locking pin", On: "flywheel", HasLimit: b.Given("pin-limit"), Limit: b.limit}
	for _, text := range b.pins {
		angle, err := usage.Angle(p, text)
		if err != nil {
			return nil, misuse("--pin %v", err)
		}
		pin.Read = append(pin.Read, angle)
	}
	return []mark.Mark{pin}, nil
}
