package main

import (
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/flags/setup"
	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// bareJob is the flags that stand for a job file.
type bareJob struct {
	*flags.Set
	setup.Flags
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
	b.Flags = setup.New(set)
	set.Heading("Crank locking pin")
	flags.List(set, &b.pins, "pin", "DEG", "protractor reading with the crank locking pin in line (repeatable)", flags.One)
	set.Angle(&b.limit, "pin-limit", "allowed either way")
	return b
}

// open is the job that the command line names, by file or by flags.
func (b *bareJob) open(c console, files []string, open func(file string) (job.Job, error)) (job.Job, error) {
	flag := b.firstGiven()
	switch {
	case len(files) == 1 && flag != "":
		return job.Job{}, misuse("--%s does not go with a job file: write it into %s", flag, files[0])
	case len(files) > 0 || flag == "" && jobHere():
		name, err := c.jobNamed("find", files)
		if err != nil {
			return job.Job{}, err
		}
		return open(name)
	case flag == "":
		return job.Job{}, misuse("find needs a job file or --readings FILE. The folder you are in has no %s: "+
			"type for example evendrop find examples/builder, or evendrop find --help", job.FileName)
	case !b.Given("readings"):
		return job.Job{}, misuse("find needs a job file or --readings FILE. --%s goes with the second: type for example "+
			"evendrop find --readings cylinder-1.csv --stroke 81.4 --rod 133, or evendrop find --help", flag)
	}
	return b.fromFlags()
}

// firstGiven is the first flag that makes no sense beside a job file; "" of none.
func (b *bareJob) firstGiven() string {
	for _, name := range b.From(withoutJob) {
		if b.Given(name) {
			return name
		}
	}
	return ""
}

func (b *bareJob) fromFlags() (job.Job, error) {
	j := job.Job{File: *b.readings, Unit: *b.Flags.Unit}
	var err error
	if j.Setup, err = b.Setup(); err != nil {
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
