// Package class is a class that practises: an engine a learner, a sheet to print for each,
// the key apart, and the marking of all their answers at once.
package class

import (
	"fmt"
	"path/filepath"

	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/words"
)

// Class is practice jobs, each of an engine of its own, and where they are kept.
type Class struct {
	seed    uint64
	folder  string
	key     string // the folder of the answers
	Version string // of the program
	engines []engine
}

// engine is one of a class.
type engine struct {
	Number int
	rehearse.Practice
	Held []practice.Held // to be read off the sheet
}

// Make is a class of n engines in a folder, its key in another; "" for one in the folder.
// An error is of fewer or more engines than a class has, and of one that cannot be made.
func Make(seed uint64, n int, folder, key string) (Class, error) {
	c := Class{seed: seed, folder: folder, key: keyIn(folder, key)}
	plans, err := practice.Class(seed, n)
	if err != nil {
		return c, err
	}
	for i, plan := range plans {
		e := engine{Number: i + 1}
		if e.Job, err = plan.Make(); err != nil {
			return c, fmt.Errorf("engine %d: %w", e.Number, err)
		}
		if e.Held, err = plan.AtEqualDepths(); err != nil {
			return c, fmt.Errorf("engine %d: %w", e.Number, err)
		}
		e.Practice = e.In(jobIn(folder, e.Number), answerIn(c.key, e.Number))
		e.OfClass = e.Number
		c.engines = append(c.engines, e)
	}
	return c, nil
}

// TeacherOnly is the folder of the key.
const TeacherOnly = rehearse.TeacherOnly

func keyIn(folder, key string) string {
	if key == "" {
		return filepath.Join(folder, TeacherOnly)
	}
	return key
}

func jobIn(folder string, engine int) string { return filepath.Join(folder, twoDigits(engine)) }

func answerIn(key string, engine int) string { return filepath.Join(key, twoDigits(engine)+".toml") }

func twoDigits(n int) string { return fmt.Sprintf("%02d", n) }

func (c Class) worksheet() string { return filepath.Join(c.folder, "worksheet.html") }
func (c Class) keyPage() string   { return filepath.Join(c.key, "key.html") }

// Text says what was written and what to do with it. An error is form.Terminal's.
func (c Class) Text(width int) ([]byte, error) {
	var d doc.Document
	last := len(c.engines)
	check := "evendrop rehearse --check " + words.ShellWord(c.folder)
	if c.key != keyIn(c.folder, "") {
		check += " --answer " + words.ShellWord(c.key)
	}
	d.Say(fmt.Sprintf("%d engines are ready: a sheet each in %s, to print; a job each in %s to %s. The key is in %s: keep that folder from the class.",
		last, c.worksheet(), jobIn(c.folder, 1), jobIn(c.folder, last), c.key))
	d.Say("Write the answers into a file such as answers.csv, a row each. The column within is the ± that the learner promises, pin is within or outside; either may be left empty:")
	d.Add(doc.Verbatim(header + "\nAnn,1,3.4,0.3,outside\n"))
	d.Say("Have them marked with: " + check + " --answers answers.csv")
	return form.Terminal(d, width)
}
