package main

import (
	"github.com/spf13/pflag"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

// protractorFlags adds the protractor's flags, and returns what reads them once
// they are parsed.
func protractorFlags(flags *pflag.FlagSet) func() (evidence.Protractor, error) {
	counts := flags.String("counts", "with", "")
	wraps := flags.Int("wraps", 360, "")
	step := flags.String("protractor-step", "", "")
	bound := flags.String("protractor-error", "", "")
	return func() (evidence.Protractor, error) {
		p := evidence.DefaultProtractor()
		switch *counts {
		case "with":
		case "against":
			p.Sense = evidence.Against
		default:
			return p, misuse("--counts %s: expected with or against", *counts)
		}
		if p.Scale = evidence.Scale(*wraps); !p.Scale.Known() {
			return p, misuse("--wraps %d: expected 720, 360, 180 or 90", *wraps)
		}
		if err := angleFlag("--protractor-step", *step, &p.Step); err != nil {
			return p, err
		}
		if err := angleFlag("--protractor-error", *bound, &p.Error); err != nil {
			return p, err
		}
		if p.Uncertainty() == 0 {
			return p, misuse("--protractor-step and --protractor-error are both 0: no protractor is that good")
		}
		return p, nil
	}
}

// angleFlag reads a flag of degrees, nought or more, if it was given.
func angleFlag(name, text string, into *geometry.Angle) error {
	if text == "" {
		return nil
	}
	written, err := measure.ParseAngle(text)
	if err != nil || written.Side != evidence.NoSide || written.Angle < 0 {
		return misuse("%s %s: expected degrees such as 0.5", name, text)
	}
	*into = written.Angle
	return nil
}

// crankAngle reads an angle typed as the protractor shows it.
func crankAngle(p evidence.Protractor, text string) (geometry.Angle, error) {
	written, err := measure.ParseAngle(text)
	if err != nil {
		return 0, misuse("%v", err)
	}
	angle, err := p.Crank(written)
	if err != nil {
		return 0, misuse("%v", err)
	}
	return angle, nil
}
