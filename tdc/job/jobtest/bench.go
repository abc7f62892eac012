package jobtest

import (
	"fmt"
	"strings"
)

// bench is where a job is invented: the engine and its instruments as they are, and
// the job file as far as it is written.
type bench struct {
	chance
	job        Job
	toml       strings.Builder
	engine     engine
	protractor protractor
	gauge      gauge
	unit       string
	inch       float64 // mm in the job's unit
	start      float64 // crank angle of cylinder 1's TDC from the wheel's zero, radians
	sameZero   bool
	moved      float64 // crank degrees by which the wheel was moved on the crank, and all was read again; 0: it was not
	again      bool    // cylinder 1's piston was read then
	throws     []throw
	members    []string // of the drive
	camSpeed   map[string]bool
}

// throw is where a cylinder comes up, after cylinder 1, in crank degrees.
type throw struct {
	number        int
	nominal, true float64
}

// invent draws the whole job.
func (b *bench) invent() {
	b.head()
	b.inventEngine()
	b.inventProtractor()
	b.inventGauge()
	b.inventThrows()
	if b.all(3, "sets") {
		b.moved = b.between(40, 170)
		if b.protractor.wraps == 90 { // which ends at 90 either way
			b.moved = b.between(5, 20)
		}
	}
	for _, t := range b.throws {
		b.inventCylinder(t)
	}
	b.inventOnDrive()
	b.keep(JobFile, b.toml.String())
}

// inventOnDrive draws what stands on the drive, which counts from cylinder 1.
func (b *bench) inventOnDrive() {
	marks, lobes := b.often("marks"), b.often("lobes")
	if b.throws[0].number != 1 || !marks && !lobes {
		return
	}
	b.inventDrive()
	if marks {
		b.inventMarks()
	}
	if lobes {
		b.inventLobes()
	}
}

// head writes the top of the job file.
func (b *bench) head() {
	b.unit, b.inch = "mm", 1
	if b.seldom("inches") {
		b.unit, b.inch = "in", 25.4
		b.key("unit", `"in"`)
	} else if b.often("unit said") {
		b.key("unit", `"mm"`)
	}
	b.has("unit " + b.unit)
	if b.often("title") {
		b.key("title", oneOf(b.chance, "title", `"Invented job"`, `"Invented & <odd> job | of \"two\" *kinds*"`, `"Erfundener Prüfstand №3"`))
	}
	if b.seldom("date") {
		b.key("date", "2026-11-25")
	}
}

func (b *bench) has(kind string) { b.job.Kinds = append(b.job.Kinds, kind) }

func (b *bench) keep(name, text string) { b.job.files = append(b.job.files, file{name, text}) }

func (b *bench) line(format string, args ...any) { fmt.Fprintf(&b.toml, format+"\n", args...) }

func (b *bench) key(name, value string) { b.line("%s = %s", name, value) }

// length is a key with a length that is written in the job's unit; it returns the
// millimetres that were written.
func (b *bench) length(name string, mm float64) float64 {
	text := short(mm / b.inch)
	b.key(name, text)
	return valueOf(text) * b.inch
}
