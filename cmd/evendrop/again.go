package main

import (
	"errors"
	"fmt"
	"strings"

	"evendrop/cmd/internal/answer/newjob"
	"evendrop/cmd/internal/interview"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job"
)

// again is begin in a folder that holds a job: more of the same engine goes into the same
// job by way of jot, and not into a folder of its own.
func (b beginning) again(j job.Job) error {
	if err := b.cautions(); err != nil {
		return err
	}
	whose := ""
	if name := j.Setup.Engine.Name; name != "" {
		whose = ", " + name
	}
	b.remark(fmt.Sprintf("%s is a job already%s, with %s.", j.File, whose, words.Count(len(j.Cylinders), "cylinder")))
	var numbers []int
	for _, c := range j.Cylinders {
		numbers = append(numbers, c.Number)
	}
	i := interview.Again(interview.Facts{Unit: j.Unit, Engine: j.Setup.Engine}, numbers)
	if err := b.converse(i); err != nil {
		return err
	}
	f := i.Facts()
	for _, order := range newjob.Orders(j.Setup.Protractor, f.Beside, nil) {
		b.remark("With your own angles, " + order)
	}
	if f.Added.Number > 0 {
		*b.ahead = append(*b.ahead, fmt.Sprintf("cylinder %d", f.Added.Number))
	}
	return runJot([]string{j.File}, b.console)
}

// startReading offers to go on at the bench with a job whose files are made.
func (b beginning) startReading(jobFile string) error {
	start := false
	b.tell("")
	err := b.ask("Start reading now? y or n", "y", func(answer string) error {
		switch strings.ToLower(answer) {
		case "y", "yes":
			start = true
		case "n", "no":
		default:
			return errors.New("type y to type readings now, or n to stop here")
		}
		return nil
	})
	if err != nil || !start { // the files are made: nothing is lost at the end of input
		return nil
	}
	return runJot([]string{jobFile}, b.console)
}
