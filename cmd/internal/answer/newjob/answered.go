package newjob

import (
	"strings"

	"evendrop/cmd/internal/interview"
	"evendrop/tdc/evidence"
)

// Unanswered is what is known of a job before the first question.
func Unanswered() interview.Facts {
	return interview.Facts{Unit: "mm", Engine: evidence.Engine{KnownTo: evidence.DefaultKnownTo(false)}, Gauge: evidence.Dial}
}

// Answered is the job that answers make, with nothing else stated. Sizes that no engine has
// are an error.
func Answered(f interview.Facts, jobFile, readingsFile string) (Begun, error) {
	b := Begun{Unit: f.Unit, JobFile: jobFile, ReadingsFile: readingsFile, CountsUntried: !f.Tried, Beside: f.Beside, Marks: f.Marks, Sheet: f.Sheet}
	b.Setup.Engine = f.Engine
	b.Setup.Engine.KnownTo = evidence.DefaultKnownTo(f.Engine.OffsetStated)
	p := evidence.DefaultProtractor()
	p.Sense, p.Sides = f.Sense, f.Sides
	if f.Scale != 0 {
		p.Scale = f.Scale
	}
	b.Setup.Protractor = p
	if b.Setup.Gauge = evidence.DefaultGauge(evidence.Dial); f.Gauge != "" {
		b.Setup.Gauge = evidence.DefaultGauge(f.Gauge)
	}
	if f.GaugeUp {
		b.Setup.Gauge.Counts = evidence.Up
	}
	if f.Unit == "in" {
		b.Setup = InInches(b.Setup, func(string) bool { return false })
	}
	b.Setup.Engine.Name = strings.TrimSpace(f.Name)
	if b.Setup.Engine.Known() {
		if _, err := b.Setup.Engine.SliderCrank(); err != nil {
			return b, err
		}
	}
	return b, nil
}
