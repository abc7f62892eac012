package newjob

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/job"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
	"evendrop/tdc/job/toml"
)

// Another is a cylinder that is added to a job, with a readings file of its own.
type Another struct {
	JobFile string
	Number  int
	Throw   geometry.Angle // nominal, after cylinder 1's TDC
}

// ReadingsFile is the readings file to be made.
func (a Another) ReadingsFile() string {
	return filepath.Join(filepath.Dir(a.JobFile), fmt.Sprintf("cylinder-%d.csv", a.Number))
}

// Text says what was added and what to do next.
func (a Another) Text(width int) ([]byte, error) {
	var d doc.Document
	d.Say(fmt.Sprintf("Cylinder %d is in %s now, and its readings go into %s: evendrop jot %s --cylinder %d takes them.",
		a.Number, a.JobFile, a.ReadingsFile(), words.ShellWord(a.JobFile), a.Number))
	d.Say(caution.Line)
	return form.Terminal(d, width)
}

// Make adds the cylinder at the end of the job file and makes its readings file, and then
// says so: both or neither. The job's own text stays as it is.
func (a Another) Make(say func() error) error {
	before, err := disk.ReadFile(a.JobFile, errors.New("not found"))
	if err != nil {
		return err
	}
	whole := a.added(before)
	if err := job.CheckBlank(a.JobFile, whole); err != nil {
		return err
	}
	var together disk.Together
	together.Write(a.ReadingsFile(), Begun{JobFile: a.JobFile}.Readings(), false)
	together.Rewrite(a.JobFile, before, whole)
	return together.DoneWith(say)
}

// added is the job's text with the cylinder at its end.
func (a Another) added(before []byte) []byte {
	var w toml.Writer
	w.Next("cylinder")
	w.Key("number", toml.Number(float64(a.Number)), "")
	w.Key("throw", degrees(a.Throw), "nominal crank degrees after cylinder 1's TDC")
	w.Key("readings", toml.Quote(filepath.Base(a.ReadingsFile())), "")
	end := source.LineEnd(before)
	whole := bytes.Clone(before)
	if len(before) > 0 && before[len(before)-1] != '\n' {
		whole = append(whole, end...)
	}
	return append(whole, bytes.ReplaceAll(w.Bytes(), []byte("\n"), []byte(end))...)
}
