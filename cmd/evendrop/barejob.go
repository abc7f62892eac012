package main

import (
	"strconv"

	"github.com/spf13/pflag"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/mark"
)

// bareJob is the flags that stand for a job file.
type bareJob struct {
	flags      *pflag.FlagSet
	protractor func() (evidence.Protractor, error)
	text       map[string]*string
	pins       *[]string
}

// onlyBare are the flags that make no sense beside a job file.
var onlyBare = []string{
	"readings", "stroke", "rod", "bore", "pin-offset", "bore-offset", "unit", "gauge", "gauge-counts",
	"gauge-step", "gauge-error", "scale-known-to", "lash", "lash-known-to", "pin-limit",
}

func newBareJob(flags *pflag.FlagSet) bareJob {
	b := bareJob{flags: flags, protractor: protractorFlags(flags), text: map[string]*string{}}
	for _, name := range onlyBare {
		b.text[name] = flags.String(name, "", "")
	}
	*b.text["unit"] = "mm"
	b.pins = flags.StringArray("pin", nil, "")
	return b
}

// open is the job that the command line names, by file or by flags.
func (b bareJob) open(files []string, trust trust) (job.Job, error) {
	switch {
	case len(files) > 1:
		return job.Job{}, misuse("find takes one job file, and was given %d: type for example evendrop find job.toml", len(files))
	case len(files) == 1:
		for _, name := range append([]string{"pin", "counts", "wraps", "protractor-step", "protractor-error"}, onlyBare...) {
			if b.flags.Changed(name) {
				return job.Job{}, misuse("--%s does not go with a job file: write it into %s", name, files[0])
			}
		}
		return trust.open(files[0])
	case !b.flags.Changed("readings"):
		return job.Job{}, misuse("find needs a job file or --readings FILE: type for example evendrop find examples/builder/job.toml, or evendrop find --help")
	}
	return b.fromFlags()
}

func (b bareJob) fromFlags() (job.Job, error) {
	j := job.Job{File: *b.text["readings"], Unit: *b.text["unit"]}
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

// setup is the engine and the instruments that the flags describe.
func (b bareJob) setup() (evidence.Setup, error) {
	var s evidence.Setup
	var err error
	if s.Protractor, err = b.protractor(); err != nil {
		return s, err
	}
	kind := evidence.GaugeKind(*b.text["gauge"])
	switch kind {
	case "":
		kind = evidence.Dial
	case evidence.Dial, evidence.DepthRod, evidence.Borescope:
	default:
		return s, misuse("--gauge %s: expected dial, rod or borescope", kind)
	}
	s.Gauge = evidence.DefaultGauge(kind)
	switch counts := *b.text["gauge-counts"]; counts {
	case "", "down":
	case "up":
		s.Gauge.Counts = evidence.Up
	default:
		return s, misuse("--gauge-counts %s: expected down or up", counts)
	}
	s.Engine.OffsetStated = b.flags.Changed("pin-offset") || b.flags.Changed("bore-offset")
	s.Engine.KnownTo = evidence.DefaultKnownTo(s.Engine.OffsetStated)
	if err := b.lengths(&s); err != nil {
		return s, err
	}
	if s.Engine.Known() {
		if _, err := s.Engine.SliderCrank(); err != nil {
			return s, misuse("--stroke, --rod: %v", err)
		}
	}
	return s, b.scale(&s.Gauge)
}

// lengths reads every flag that is a length.
func (b bareJob) lengths(s *evidence.Setup) error {
	unit := *b.text["unit"]
	if unit != "mm" && unit != "in" {
		return misuse("--unit %s: expected mm or in", unit)
	}
	for _, f := range []struct {
		name  string
		into  *geometry.Length
		least geometry.Length
	}{
		{"stroke", &s.Engine.Stroke, 1e-6}, {"rod", &s.Engine.Rod, 1e-6}, {"bore", &s.Engine.Bore, 1e-6},
		{"pin-offset", &s.Engine.PinOffset, -1e6}, {"bore-offset", &s.Engine.BoreOffset, -1e6},
		{"gauge-step", &s.Gauge.Step, 0}, {"gauge-error", &s.Gauge.Error, 0},
		{"lash", &s.Gauge.Lash, 0}, {"lash-known-to", &s.Gauge.LashKnownTo, 0},
	} {
		text := *b.text[f.name]
		if text == "" {
			continue
		}
		length, err := measure.ParseLength(text, unit)
		if err != nil || length < f.least {
			return misuse("--%s %s: expected a length such as 81.4", f.name, text)
		}
		*f.into = length
	}
	if s.Gauge.Uncertainty() == 0 {
		return misuse("--gauge-step and --gauge-error are both 0: no gauge is that good")
	}
	return nil
}

func (b bareJob) scale(g *evidence.Gauge) error {
	text := *b.text["scale-known-to"]
	if text == "" {
		return nil
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || !(value >= 0 && value <= 1) {
		return misuse("--scale-known-to %s: expected a fraction such as 0.07", text)
	}
	g.ScaleKnownTo = value
	return nil
}

// marks is the locking pin that the flags describe, if they do.
func (b bareJob) marks(p evidence.Protractor) ([]mark.Mark, error) {
	if len(*b.pins) == 0 {
		return nil, nil
	}
	pin := mark.Mark{Name: "locking pin", On: "flywheel"}
	for _, text := range *b.pins {
		angle, err := crankAngle(p, text)
		if err != nil {
			return nil, misuse("--pin %v", err)
		}
		pin.Read = append(pin.Read, angle)
	}
	if text := *b.text["pin-limit"]; text != "" {
		pin.HasLimit = true
		if err := angleFlag("--pin-limit", text, &pin.Limit); err != nil {
			return nil, err
		}
	}
	return []mark.Mark{pin}, nil
}
