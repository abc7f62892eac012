package main

import (
	"fmt"
	"io"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
)

// printable is an answer in every form.
type printable interface {
	Text() ([]byte, error)
	Markdown() ([]byte, error)
	JSON() ([]byte, error)
	CSV() ([]byte, error)
}

// write prints an answer whole, or nothing of it.
func write(stdout io.Writer, answer printable, as string) error {
	render := map[string]func() ([]byte, error){
		"text": answer.Text, "markdown": answer.Markdown, "json": answer.JSON, "csv": answer.CSV,
	}[as]
	page, err := render()
	if err != nil {
		return err
	}
	_, err = stdout.Write(page)
	return err
}

// inCylinder names the file whose readings an error is about.
func inCylinder(j job.Job, cylinder evidence.Cylinder, err error) error {
	file := j.File
	if len(cylinder.Readings) > 0 {
		file = cylinder.Readings[0].File
	}
	if len(j.Cylinders) > 1 {
		return fmt.Errorf("%s: cylinder %d: %w", file, cylinder.Number, err)
	}
	return fmt.Errorf("%s: %w", file, err)
}
