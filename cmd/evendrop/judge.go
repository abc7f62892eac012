package main

import (
	"fmt"

	"evendrop/tdc"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
)

// judge holds a job's marks against cylinder 1's TDC, and says what they point to.
func judge(j job.Job, result tdc.Result) ([]mark.Finding, mark.Diagnosis, error) {
	if len(j.Marks) == 0 {
		return nil, mark.Diagnosis{}, nil
	}
	if result.Number != 1 {
		return nil, mark.Diagnosis{}, fmt.Errorf("%s: marks count from cylinder 1's TDC, and the job has none: add a [[cylinder]] with number = 1", j.File)
	}
	findings, err := mark.Judge(j.Setup, result, j.Drive, j.Marks)
	if err != nil {
		return nil, mark.Diagnosis{}, j.Locate(err)
	}
	diagnosis, err := mark.Explain(j.Setup, j.Drive, findings)
	if err != nil {
		return nil, mark.Diagnosis{}, j.Locate(err)
	}
	return findings, diagnosis, nil
}

// holdAgainst puts a known-good file's marks in place of the job's nominal angles;
// nothing without a file.
func holdAgainst(j job.Job, file string) (job.Job, *job.KnownGood, error) {
	if file == "" {
		return j, nil, nil
	}
	known, err := job.OpenKnownGood(file)
	if err != nil {
		return j, nil, err
	}
	if j.Marks, err = mark.HoldAgainst(j.Marks, known.Marks); err != nil {
		return j, nil, j.Locate(err)
	}
	for _, m := range j.Marks {
		if m.Healthy != nil {
			return j, &known, nil
		}
	}
	return j, nil, fmt.Errorf("%s: none of the job's marks is in %s: give the marks the same names in both", j.File, file)
}
