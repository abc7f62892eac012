package words

import (
	"errors"

	"evendrop/tdc/job/source"
)

// Problem is an error with what to type, where something that can be typed cures it.
func Problem(err error) string {
	text := err.Error()
	wrong, curable := errors.AsType[source.Curable](err)
	if !curable {
		return text
	}
	file := "FILE"
	if of, ok := errors.AsType[*source.Error](err); ok {
		file = ShellWord(source.OneLine(of.File))
	}
	return text + cure(wrong.Cure, file)
}

// cure is what to type, as it goes on from what is wrong.
func cure(c source.Cure, file string) string {
	switch c {
	case source.Overwrite:
		return ", or type --replace to overwrite it"
	case source.Trust:
		return ", or type --trust-paths if you trust this job to read it"
	case source.NewJob:
		return ", or make a new job: evendrop begin DIR"
	case source.NewKnownGood:
		return ", or make one: evendrop keep JOB FILE"
	case source.AsReadings:
		return ", or type evendrop find --readings " + file
	case source.AsJob:
		return ": type evendrop find " + file
	case source.AsKnownGood:
		return ": type evendrop find JOB --against " + file
	case source.KeepJob:
		return ": make a known-good file with evendrop keep JOB FILE"
	case source.TypeAtTheBench:
		return ", typed here or with evendrop jot"
	}
	panic("no words for the cure: " + string(c)) // a test words every cure
}
